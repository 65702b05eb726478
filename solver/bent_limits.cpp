#include "solver/bent_limits.hpp"

#include <cmath>
#include <numbers>
#include <sstream>

#include "mesh/board/digits_apart.hpp"

namespace vrid {

std::vector<std::string> bent_warnings(const std::string& what, double least_c,
                                       double most_strain) {
    constexpr double degree = std::numbers::pi / 180;
    std::vector<std::string> warnings;
    std::ostringstream text;
    if (most_strain > strain_limit) {
        text.precision(digits_apart(most_strain, strain_limit, 3));
        text << what << ": a strain of " << most_strain << " passes " << strain_limit
             << ": large strains are not modelled";
        warnings.push_back(text.str());
    }
    text.str("");
    if (least_c < std::cos(tilt_limit * degree)) {
        const double turned = std::acos(least_c) / degree;
        text.precision(digits_apart(turned, tilt_limit, 3));
        text << what << ": the surface has turned by " << turned << " degrees, more than "
             << tilt_limit;
        warnings.push_back(text.str());
    }
    return warnings;
}

} // namespace vrid
