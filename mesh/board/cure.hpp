#pragma once

#include <optional>

#include "mesh/board/profile.hpp"

namespace vrid {

/// How the board was cured and what it meets afterwards. Temperatures in degrees Celsius: only
/// their differences count.
struct Cure {
    double stress_free = 0; ///< at which the laminate holds no stress [deg C]
    double room = 20;       ///< where the board is measured [deg C]
    double cold = -20;      ///< where it is ridden [deg C]
    double moisture = 0;    ///< of wood, use minus pressing [fraction, 0.01 a percentage point]
    std::optional<Profile> mould; ///< heights of a mould that exists [m]
};

} // namespace vrid
