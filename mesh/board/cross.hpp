#pragma once

#include "mesh/board/eigen_names.hpp"

namespace vrid {

/// The turn from a to b: positive to the left, |a| |b| sine of the angle between.
inline double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
    return a.x() * b.y() - a.y() * b.x();
}

} // namespace vrid
