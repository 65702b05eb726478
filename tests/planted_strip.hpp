#pragma once

#include <array>

namespace vrid::tests {

/// How 24 samples on a linear model know the bending stiffness E h^3 b of a strip whose values
/// scatter, of which all is known: intervals of 95 % that held, and mean squares of the misses.
struct StripCoverage {
    std::array<double, 3> exact{};   ///< mean, deviation, share above a limit
    std::array<double, 3> squares{}; ///< of the misses
    std::array<int, 3> covered{};    ///< of the seeds
    double linear_yield = 0;         ///< by the linear model alone
};
/// \param wide deviation of the width
StripCoverage planted_strip_coverage(int seeds, double wide = 0.03);

} // namespace vrid::tests
