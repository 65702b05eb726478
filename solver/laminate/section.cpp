#include "solver/laminate/section.hpp"

namespace vrid {

template Section<double> section(const std::vector<Lamina<double>>& stack);

} // namespace vrid
