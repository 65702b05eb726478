#include <cmath>

#include <unistd.h>

#include "benchmarks/measure/elimination_time.hpp"
#include "benchmarks/measure/machine.hpp"
#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"

namespace vrid::measure {

std::vector<Row> elimination_rows(const Means&) {
    constexpr int degree = 3; // the default
    constexpr double largest = 1e6;
    constexpr double touched = 4000; // bytes an unknown, as bench_elimination
    const double free = static_cast<double>(::sysconf(_SC_AVPHYS_PAGES)) *
                        static_cast<double>(::sysconf(_SC_PAGESIZE));
    if (free < 1.5 * touched * largest) {
        return {not_here(2, "factorisation, 1e6 unknowns", "at most 1.5",
                         "it takes 6 GB of free memory")};
    }
    touch_memory(touched * largest);
    const EliminationTime small = elimination_time(Plate::of_size(1e4, degree), 1);
    const EliminationTime middle = elimination_time(Plate::of_size(1e5, degree), 1);
    const EliminationTime large = elimination_time(Plate::of_size(largest, degree), 1);
    const auto n_log_n = [](const EliminationTime& one) {
        return one.bytes / (one.unknowns * std::log(one.unknowns));
    };
    return {
        at_most(2, "factorisation over the dense limit, 1e6 unknowns", large.ratios(), 1.5),
        at_most(2, "the same at 1e5", middle.ratios(), 2),
        at_most(2, "order, factorisation, ten right-hand sides, 1e6", large.totals(), 2.5),
        at_most(2, "memory over N log N: 1e6 against 1e5", {n_log_n(large) / n_log_n(middle)},
                1.05),
        at_most(7, "factorisation: exponent of N, 1e4 to 1e6",
                {exponent(small.unknowns, large.unknowns, median(small.warm), median(large.warm))},
                1.5)};
}

} // namespace vrid::measure
