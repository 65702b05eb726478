#pragma once

#include <algorithm>
#include <cassert>
#include <cmath>
#include <string>
#include <vector>

namespace vrid {

/// How a profile runs between its stations.
enum class Interpolation {
    smooth, ///< monotone cubic (smooth_slopes)
    linear  ///< straight
};

/// A value along the board by stations, constant beyond the ends.
struct Profile {
    Interpolation interpolation = Interpolation::smooth; ///< between stations
    std::vector<double> x;                               ///< stations, strictly rising [m]
    std::vector<double> value;                           ///< one per station [m]
};

/// Three-point slope at an end from the secants d1, d2 over h1, h2, kept from overshooting.
template <class T> T end_slope(double h1, double h2, const T& d1, const T& d2) {
    const T slope = ((2 * h1 + h2) * d1 - h1 * d2) / (h1 + h2);
    if (slope * d1 < 0) {
        return T(0);
    }
    if (slope * d1 == 0) { // a kink: 0 on one side, the formula or its cut on the other
        return slope == 0 ? T(slope / 2) : T(3 * d1 / 2);
    }
    if (d1 * d2 < 0 && (slope < 0 ? T(-slope) : slope) > 3 * (d1 < 0 ? T(-d1) : d1)) {
        return 3 * d1;
    }
    return slope;
}

/// Slopes of the monotone cubic Hermite at the stations: Fritsch and Butland (1984), SIAM J. Sci.
/// Stat. Comput. 5, in the weighted harmonic form; ends by the three-point formula, limited.
/// \param x the stations
/// \param value one per station, a plain or a dual number. At a kink of the formula (level secants)
/// the value is 0 and a dual number's derivative the mean of both sides': what a central difference
/// sees.
template <class T>
std::vector<T> smooth_slopes(const std::vector<double>& x, const std::vector<T>& value) {
    const std::size_t n = x.size();
    std::vector<T> slope(n, T(0));
    if (n < 2) {
        return slope;
    }
    std::vector<double> h(n - 1);
    std::vector<T> d(n - 1);
    for (std::size_t i = 0; i + 1 < n; ++i) {
        h[i] = x[i + 1] - x[i];
        d[i] = (value[i + 1] - value[i]) / h[i];
    }
    if (n == 2) {
        slope[0] = slope[1] = d[0];
        return slope;
    }
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double w1 = 2 * h[i] + h[i - 1];
        const double w2 = h[i] + 2 * h[i - 1];
        if (d[i - 1] * d[i] > 0) {
            slope[i] = (w1 + w2) / (w1 / d[i - 1] + w2 / d[i]);
        } else if (d[i - 1] != d[i] && d[i - 1] == 0) { // level on one side: a kink
            slope[i] = d[i - 1] * ((w1 + w2) / w1) / 2;
        } else if (d[i - 1] != d[i] && d[i] == 0) {
            slope[i] = d[i] * ((w1 + w2) / w2) / 2;
        }
    }
    slope[0] = end_slope(h[0], h[1], d[0], d[1]);
    slope[n - 1] = end_slope(h[n - 2], h[n - 3], d[n - 2], d[n - 3]);
    return slope;
}

std::vector<double> smooth_slopes(const Profile& profile); ///< one per station

/// Value at station x [m]; slopes from smooth_slopes (ignored for linear).
template <class T>
T value_at(const Profile& profile, const std::vector<T>& value, const std::vector<T>& slopes,
           double x) {
    assert(!profile.x.empty() && profile.x.size() == value.size());
    if (x <= profile.x.front()) {
        return value.front();
    }
    if (x >= profile.x.back()) {
        return value.back();
    }
    const auto above = std::upper_bound(profile.x.begin(), profile.x.end(), x);
    const auto i = static_cast<std::size_t>(above - profile.x.begin()) - 1;
    const double h = profile.x[i + 1] - profile.x[i];
    const double t = (x - profile.x[i]) / h;
    const T& a = value[i];
    const T& b = value[i + 1];
    if (profile.interpolation == Interpolation::linear) {
        return a + t * (b - a);
    }
    const double s = 1 - t;
    return s * s * (1 + 2 * t) * a + t * t * (3 - 2 * t) * b +
           h * t * s * (s * slopes[i] - t * slopes[i + 1]);
}

/// Value at station x [m] of the profile's own values.
double value_at(const Profile& profile, const std::vector<double>& slopes, double x);

} // namespace vrid
