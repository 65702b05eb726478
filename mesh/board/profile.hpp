#pragma once

#include <string>
#include <vector>

namespace vrid {

enum class Interpolation { smooth, linear };

/// A value along the board by stations, constant beyond the ends.
struct Profile {
    Interpolation interpolation = Interpolation::smooth;
    std::vector<double> x;     ///< stations, strictly rising [m]
    std::vector<double> value; ///< one per station [m]
};

/// Slopes of the monotone cubic Hermite at the stations: Fritsch and Butland (1984), SIAM J. Sci.
/// Stat. Comput. 5, in the weighted harmonic form; ends by the three-point formula, limited.
std::vector<double> smooth_slopes(const Profile& profile);

/// Value at station x [m]; slopes from smooth_slopes (ignored for linear).
double value_at(const Profile& profile, const std::vector<double>& slopes, double x);

} // namespace vrid
