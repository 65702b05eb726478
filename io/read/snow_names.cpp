#include "io/read/snow_names.hpp"

#include <array>

#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

struct Snow {
    const char* name;
    double hardness; // [N/mm3]
};

// Names are ours; measured values on groomed pistes lie between 0.04 and 90 (Moessner et al., 2013,
// J. Glaciology).
constexpr std::array kinds{Snow{"soft", 0.05}, Snow{"packed", 0.5}, Snow{"hard", 5},
                           Snow{"ice", 50}};

} // namespace

std::vector<std::string> snow_names() {
    return each_of(kinds, [](const Snow& kind) { return std::string(kind.name); });
}

std::optional<double> snow_hardness(const std::string& name) {
    for (const Snow& kind : kinds) {
        if (name == kind.name) {
            return kind.hardness;
        }
    }
    return std::nullopt;
}

} // namespace vrid
