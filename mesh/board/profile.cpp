#include "mesh/board/profile.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace vrid {

namespace {

// Three-point slope at an end, kept from overshooting.
double end_slope(double h1, double h2, double d1, double d2) {
    const double slope = ((2 * h1 + h2) * d1 - h1 * d2) / (h1 + h2);
    if (slope * d1 <= 0) {
        return 0;
    }
    if (d1 * d2 < 0 && std::abs(slope) > 3 * std::abs(d1)) {
        return 3 * d1;
    }
    return slope;
}

} // namespace

std::vector<double> smooth_slopes(const Profile& profile) {
    const std::size_t n = profile.x.size();
    std::vector<double> slope(n, 0.0);
    if (n < 2) {
        return slope;
    }
    std::vector<double> h(n - 1);
    std::vector<double> d(n - 1);
    for (std::size_t i = 0; i + 1 < n; ++i) {
        h[i] = profile.x[i + 1] - profile.x[i];
        d[i] = (profile.value[i + 1] - profile.value[i]) / h[i];
    }
    if (n == 2) {
        slope[0] = slope[1] = d[0];
        return slope;
    }
    for (std::size_t i = 1; i + 1 < n; ++i) {
        if (d[i - 1] * d[i] > 0) {
            const double w1 = 2 * h[i] + h[i - 1];
            const double w2 = h[i] + 2 * h[i - 1];
            slope[i] = (w1 + w2) / (w1 / d[i - 1] + w2 / d[i]);
        }
    }
    slope[0] = end_slope(h[0], h[1], d[0], d[1]);
    slope[n - 1] = end_slope(h[n - 2], h[n - 3], d[n - 2], d[n - 3]);
    return slope;
}

double value_at(const Profile& profile, const std::vector<double>& slopes, double x) {
    assert(!profile.x.empty() && profile.x.size() == profile.value.size());
    if (x <= profile.x.front()) {
        return profile.value.front();
    }
    if (x >= profile.x.back()) {
        return profile.value.back();
    }
    const auto above = std::upper_bound(profile.x.begin(), profile.x.end(), x);
    const auto i = static_cast<std::size_t>(above - profile.x.begin()) - 1;
    const double h = profile.x[i + 1] - profile.x[i];
    const double t = (x - profile.x[i]) / h;
    const double a = profile.value[i];
    const double b = profile.value[i + 1];
    if (profile.interpolation == Interpolation::linear) {
        return a + t * (b - a);
    }
    const double s = 1 - t;
    return s * s * (1 + 2 * t) * a + t * t * (3 - 2 * t) * b +
           h * t * s * (s * slopes[i] - t * slopes[i + 1]);
}

} // namespace vrid
