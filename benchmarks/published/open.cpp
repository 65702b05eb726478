#include "benchmarks/published/open.hpp"

namespace vrid::published {

const std::map<std::string, std::string>& open_checks() {
    static const std::map<std::string, std::string> open;
    return open;
}

} // namespace vrid::published
