#include "solver/bent_limits.hpp"

#include <cmath>
#include <numbers>
#include <sstream>

namespace vrid {

std::vector<std::string> bent_warnings(const std::string& what, double least_c,
                                       double most_strain) {
    constexpr double degree = std::numbers::pi / 180;
    std::vector<std::string> warnings;
    std::ostringstream text;
    text.precision(3);
    if (most_strain > strain_limit) {
        text << what << ": a strain of " << most_strain << " passes " << strain_limit
             << ": large strains are not modelled";
        warnings.push_back(text.str());
    }
    text.str("");
    if (least_c < std::cos(tilt_limit * degree)) {
        text << what << ": the surface has turned by " << std::acos(least_c) / degree
             << " degrees, more than " << tilt_limit;
        warnings.push_back(text.str());
    }
    return warnings;
}

} // namespace vrid
