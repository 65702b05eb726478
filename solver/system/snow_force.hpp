#pragma once

namespace vrid {

/// A side of the board.
enum class Side {
    left, ///< y > 0
    right ///< y < 0
};

/// How snow yields to an edge.
enum class SnowLaw {
    volume, ///< q = hardness d^2 / sin 2t, hardness [N/m3]: volume displaced by a right-angled edge
    linear  ///< q = hardness d, hardness [N/m2]
};

/// Force of the snow per length of edge pressed d deep, at one tilt. q is never negative.
struct SnowForce {
    SnowLaw law = SnowLaw::volume;              ///< the formula
    double hardness = 0;                        ///< [N/m3] or [N/m2]
    double tilt = 0;                            ///< [rad]
    [[nodiscard]] double q(double d) const;     ///< [N/m]
    [[nodiscard]] double slope(double d) const; ///< dq/dd [N/m2]
    [[nodiscard]] double depth(double q) const; ///< at which it is q >= 0 [m]
};

} // namespace vrid
