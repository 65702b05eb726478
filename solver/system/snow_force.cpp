#include "solver/system/snow_force.hpp"

#include <cmath>

namespace vrid {

double SnowForce::q(double d) const {
    if (d <= 0) {
        return 0;
    }
    return law == SnowLaw::linear ? hardness * d : hardness * d * d / std::sin(2 * tilt);
}

double SnowForce::slope(double d) const {
    if (d <= 0) {
        return 0;
    }
    return law == SnowLaw::linear ? hardness : 2 * hardness * d / std::sin(2 * tilt);
}

double SnowForce::depth(double q) const {
    return law == SnowLaw::linear ? q / hardness : std::sqrt(q * std::sin(2 * tilt) / hardness);
}

} // namespace vrid
