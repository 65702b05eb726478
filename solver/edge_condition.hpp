#pragma once

#include "solver/system/snow_force.hpp"

namespace vrid {

/// One way to stand on the edge.
struct EdgeCondition {
    Side side = Side::left;        ///< which edge is on the snow
    double tilt = 0;               ///< edging angle [rad]
    double force = 0;              ///< on both feet, normal to the running surface [N]
    double hardness = 0;           ///< [N/m3] (volume) or [N/m2] (linear)
    double share = 0.5;            ///< of the front foot
    SnowLaw law = SnowLaw::volume; ///< how it yields
    bool bent = false;             ///< in large motion
};

} // namespace vrid
