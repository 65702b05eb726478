#pragma once

#include <algorithm>
#include <cmath>

namespace vrid {

/// Error at degree p over the change from p - 1, for stiffness errors that fall like p^-2: as slow
/// as an interior corner of a clamp lets the energy converge (Babuska and Suri, 1987, p^(-4 lambda)
/// with lambda >= 1/2). Never below the change itself.
inline double bar_factor(int p) {
    return std::max(1.0, (p - 1.0) * (p - 1.0) / (2.0 * p - 1.0));
}

/// Half width of the error bar of a number computed at degrees p and p - 1 on one mesh.
inline double error_bar(int p, double fine, double coarse) {
    return bar_factor(p) * std::abs(fine - coarse);
}

} // namespace vrid
