#include "solver/lot/capability.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "solver/lot/tails.hpp"

namespace vrid {

namespace {

constexpr int redraws = 2000;
constexpr double coarse = 0.25; // of the readings' variance that must be the boards'

double boards_sd(double variance, double rig_sd) {
    return std::sqrt(std::max(0.0, variance - rig_sd * rig_sd));
}

void add_interval(Capability& one, const CapabilityInput& found, const CapabilityLimits& limits,
                  std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const double nu = found.cells - 1;
    std::chi_squared_distribution<double> chi2(nu);
    std::vector<double> shares;
    for (int draw = 0; draw < redraws; ++draw) {
        const double variance = found.sd * found.sd * nu / chi2(random);
        const double spread = std::sqrt(variance / found.cells + found.bias_sd * found.bias_sd);
        const double mean = found.mean + spread * normal(random);
        shares.push_back(share_outside(mean, boards_sd(variance, found.rig_sd), limits));
    }
    std::ranges::sort(shares);
    constexpr double tail = 0.025;
    const auto at = [&](double p) {
        return shares[static_cast<std::size_t>(p * (redraws - 1) + 0.5)];
    };
    one.low = at(tail);
    one.high = at(1 - tail);
}

} // namespace

double share_outside(double mean, double sd, const CapabilityLimits& limits) {
    const auto beyond = [&](double distance) { // of the limit from the mean, outwards
        return sd > 0 ? std::erfc(distance / (sd * std::sqrt(2.0))) / 2
                      : (distance < 0 ? 1.0 : 0.0);
    };
    return (limits.min ? beyond(mean - *limits.min) : 0) +
           (limits.max ? beyond(*limits.max - mean) : 0);
}

Capability capability(const CapabilityInput& found, const CapabilityLimits& limits,
                      std::uint64_t seed) {
    Capability one;
    const double variance = found.sd * found.sd;
    one.mean = found.mean;
    one.sd = boards_sd(variance, found.rig_sd);
    one.rig_too_coarse = one.sd * one.sd < coarse * variance;
    one.outside = share_outside(one.mean, one.sd, limits);
    add_interval(one, found, limits, seed);
    const double below = limits.min ? found.mean - *limits.min : HUGE_VAL;
    const double above = limits.max ? *limits.max - found.mean : HUGE_VAL;
    one.cpk = std::min(below, above) / (3 * found.sd);
    if (limits.min && limits.max) {
        one.cp = (*limits.max - *limits.min) / (6 * found.sd);
    }
    const double n = found.cells;
    one.cpk_half_width =
        normal_quantile(0.975) * std::sqrt(1 / (9 * n) + one.cpk * one.cpk / (2 * (n - 1)));
    return one;
}

} // namespace vrid
