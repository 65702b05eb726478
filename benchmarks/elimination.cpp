// Multifrontal elimination of a plate 1.5 x 0.25 m, one thread: seconds against the limit set by
// dense multiplication (flops / measured rate of dgemm in the same run), memory, growth.
// Arguments: the largest number of unknowns (default 3e5), threads (default 1),
// a single degree (default: several).

#include <cstdio>
#include <cstdlib>
#include <vector>

#include "benchmarks/measure/elimination_time.hpp"
#include "benchmarks/measure/machine.hpp"
#include "benchmarks/measure/runs.hpp"

using namespace vrid::measure;

namespace {

EliminationTime timed(const Plate& plate, int threads) {
    const EliminationTime m = elimination_time(plate, threads);
    const double warm = median(m.warm);
    std::printf("%9.0f %7.0f %8.4f %8.4f %8.4f %7.2f %6.1f %6.2f %8.4f %7.1f %8.1e\n", m.unknowns,
                m.fronts, m.tree, m.cold, warm, m.flops * 1e-9, m.flops / warm * 1e-9,
                median(m.ratios()), m.solve, m.bytes / 1048576, m.residual);
    return m;
}

} // namespace

int main(int count, char** argument) {
    const double largest = count > 1 ? std::atof(argument[1]) : 3e5;
    const int threads = count > 2 ? std::atoi(argument[2]) : 1;
    std::printf("%s%d threads\n", machine_text().c_str(), threads);
    touch_memory(largest * 4000);
    for (const int p : {1, 2, 3, 4, 6}) {
        if (count > 3 && std::atoi(argument[3]) != p) {
            continue;
        }
        std::printf("degree %d\n%9s %7s %8s %8s %8s %7s %6s %6s %8s %7s %8s\n", p, "unknowns",
                    "fronts", "tree s", "cold s", "warm s", "Gflop", "Gf/s", "ratio", "10 rhs s",
                    "MB", "residual");
        std::vector<EliminationTime> all;
        for (const double target : {1e4, 3e4, 1e5, 3e5, 1e6}) {
            if (target <= 1.01 * largest) {
                all.push_back(timed(Plate::of_size(target, p), threads));
            }
        }
        if (all.size() > 1) {
            std::printf("growth: time ~ N^%.2f\n",
                        exponent(all.front().unknowns, all.back().unknowns,
                                 median(all.front().warm), median(all.back().warm)));
        }
    }
}
