#include <cmath>

#include "benchmarks/measure/elimination_time.hpp"
#include "benchmarks/measure/machine.hpp"
#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"
#include "solver/system/free_memory.hpp"

namespace vrid::measure {

namespace {

// a N log N + b N through two sizes, at a third: as nested dissection of a plate grows (George
// 1973, from memory).
double n_log_n_through(const EliminationTime& one, const EliminationTime& two, double unknowns) {
    const double first = one.bytes / one.unknowns; // a log N + b
    const double second = two.bytes / two.unknowns;
    const double a = (second - first) / std::log(two.unknowns / one.unknowns);
    return unknowns * (second + a * std::log(unknowns / two.unknowns));
}

} // namespace

std::vector<Row> elimination_rows(const Means&) {
    constexpr int degree = 3; // the default
    constexpr double largest = 1e6;
    constexpr double touched = 4000; // bytes an unknown, as bench_elimination
    if (free_memory().process < 1.5 * touched * largest) {
        return {not_here(2, "factorisation, 1e6 unknowns", "at most 1.5",
                         "it takes 6 GB of free memory")};
    }
    touch_memory(touched * largest);
    const EliminationTime small = elimination_time(Plate::of_size(1e4, degree), 1);
    const EliminationTime middle = elimination_time(Plate::of_size(1e5, degree), 1);
    const EliminationTime large = elimination_time(Plate::of_size(largest, degree), 1);
    return {
        at_most(2, "factorisation over the dense limit, 1e6 unknowns", large.ratios(), 1.5),
        at_most(2, "the same at 1e5", middle.ratios(), 2),
        at_most(2, "order, factorisation, ten right-hand sides, 1e6", large.totals(), 2.5),
        at_most(2, "memory at 1e6 over a N log N + b N through 1e4 and 1e5",
                {large.bytes / n_log_n_through(small, middle, large.unknowns)}, 1.05),
        at_most(7, "factorisation: exponent of N, 1e4 to 1e6",
                {exponent(small.unknowns, large.unknowns, median(small.warm), median(large.warm))},
                1.5)};
}

} // namespace vrid::measure
