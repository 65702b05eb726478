#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

namespace vrid {

/// The bar of a number of which nothing tells the error: as wide as can be. Sums of bars and
/// comparisons with it come out right by themselves: no difference is resolved, no limit is
/// clearly kept. Texts say "no bar", JSON has null.
inline constexpr double no_bar = std::numeric_limits<double>::infinity();

/// Error at degree p over the change from p - 1, for stiffness errors that fall like p^-2: as slow
/// as an interior corner of a clamp lets the energy converge (Babuska and Suri, 1987, p^(-4 lambda)
/// with lambda >= 1/2). Never below the change itself.
inline double bar_factor(int p) {
    return std::max(1.0, (p - 1.0) * (p - 1.0) / (2.0 * p - 1.0));
}

/// Half width of the error bar of a number computed at degrees p and p - 1 on one mesh. Degree 1
/// has no lower degree to be held against: no_bar.
inline double error_bar(int p, double fine, double coarse) {
    return p < 2 ? no_bar : bar_factor(p) * std::abs(fine - coarse);
}

/// Half width that a stiffness's bar has at least, by the share `change` (strain_change) that the
/// energy of the two degrees' difference has in its energy: tied shear is softer and lower degrees
/// are stiffer, so that the stiffness itself may stand still from one degree to the next by chance.
/// Where a clamp ends at a free edge, at a right angle, stresses are singular (Williams 1952, from
/// memory: of an isotropic sheet above 63 degrees; rotations of a plate that shears go by the same
/// equations there): the energy converges no faster than p^-4 (p^(-4 lambda), lambda <= 1), and
/// what degree p still lacks is no smaller part of the difference than this.
inline double strain_bar(int p, double value, double change) {
    return p < 2 ? no_bar : std::abs(value) * change / (std::pow(p / (p - 1.0), 4) - 1);
}

/// error_bar of a rise [m] or a turn [rad] of the board out of the press, which may be zero: never
/// below what no rounding of a solve passes and no gauge sees.
inline double shape_bar(int p, double fine, double coarse) {
    return std::max(1e-9, error_bar(p, fine, coarse));
}

/// The same for a frequency. Nothing clamps a free board: by measurement
/// (benchmarks/error_bars.cpp) 95 of 100 frequencies of random boards converge like p^-2.5 or
/// faster, so the bar of p^-2 would be more than ten times the error. Only where the mesh `follows`
/// every jump of the section, and not below degree 3, where the change is not yet regular: there it
/// is the bar above.
inline double frequency_bar(int p, double fine, double coarse, bool follows) {
    if (!follows || p < 3) {
        return error_bar(p, fine, coarse);
    }
    return std::abs(fine - coarse) / (std::pow(p / (p - 1.0), 2.5) - 1);
}

} // namespace vrid
