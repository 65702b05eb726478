#pragma once

#include <cstdint>
#include <optional>

#include "solver/lot/spread.hpp"

namespace vrid {

/// Limits of a number; at least one.
struct CapabilityLimits {
    std::optional<double> min, max;
};

/// A number over the boards as built, and how much of it is outside its limits.
struct Capability {
    double mean = 0;
    double sd = 0; ///< of boards, the rig taken off
    bool rig_too_coarse = false;
    double outside = 0, low = 0, high = 0; ///< share of boards, normal law, 95 % interval
    double cpk = 0, cpk_half_width = 0;    ///< of the readings as they are, 95 %
    std::optional<double> cp;              ///< with two limits
};

struct CapabilityInput {
    double mean = 0, sd = 0; ///< of the readings
    int cells = 0;           ///< 2 or more
    double rig_sd = 0, bias_sd = 0;
};

/// Cpk with the interval of A. F. Bissell (How reliable is your capability index?, Applied
/// Statistics 39, 1990, from memory); the share outside with 2000 seeded redraws of mean and
/// variance.
Capability capability(const CapabilityInput& found, const CapabilityLimits& limits,
                      std::uint64_t seed);

/// Share of a normal distribution outside the limits.
double share_outside(double mean, double sd, const CapabilityLimits& limits);

} // namespace vrid
