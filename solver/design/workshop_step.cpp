#include "solver/design/workshop_step.hpp"

#include <cmath>

namespace vrid {

double workshop_step(const DesignValue& value) {
    return value.kind().step > 0 ? value.kind().step : 0.1 * std::abs(value.value);
}

} // namespace vrid
