#pragma once

#include <vector>

#include "benchmarks/plate.hpp"

namespace vrid::measure {

/// A plate eliminated a few times, dense products timed in between: a run's limit is by the rate
/// just before it.
struct EliminationTime {
    double unknowns = 0, fronts = 0;
    double tree = 0, cold = 0, solve = 0; ///< [s]; cold: with memory fresh from the system
    std::vector<double> warm, limit;      ///< [s], run by run
    double flops = 0, bytes = 0, residual = 0;
    [[nodiscard]] std::vector<double> ratios() const; ///< warm over limit
    /// Order, factorisation and ten right-hand sides over the limit.
    [[nodiscard]] std::vector<double> totals() const;
};

/// One thread: seconds of the process; several: on the wall.
EliminationTime elimination_time(const Plate& plate, int threads);

/// The exponent of a growth from one size to another.
double exponent(double size_from, double size_to, double from, double to);

} // namespace vrid::measure
