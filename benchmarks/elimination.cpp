// Multifrontal elimination of a plate 1.5 x 0.25 m, one thread: seconds against the limit set by
// dense multiplication (flops / measured rate of dgemm in the same run), memory, growth.
// Arguments: the largest number of unknowns (default 3e5), threads (default 1),
// a single degree (default: several).

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include <cblas.h>

#include "benchmarks/plate.hpp"
#include "solver/system/elimination.hpp"

namespace {

double wall_seconds() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

struct Measured {
    double unknowns = 0, tree = 0, cold = 0, warm = 0, solve = 0, residual = 0;
};

Measured measure(const Plate& plate, double rate, int threads) {
    const auto now = threads > 1 ? wall_seconds : cpu_seconds;
    const auto stiffness = [&](int, Eigen::MatrixXd& K) { K = plate.element; };
    vrid::FactorOptions options;
    options.means.threads = threads;
    Measured m;
    double start = now();
    const auto tree = vrid::build_tree(plate.dofs);
    m.tree = now() - start;
    start = now();
    auto factor = vrid::factorise(tree, stiffness, plate.fixed, options);
    m.cold = now() - start;
    std::vector<double> warm;
    const int times = factor.cost.flops > 5e10 ? 2 : 5;
    for (int i = 0; i < times; ++i) {
        factor = {};
        start = now();
        factor = vrid::factorise(tree, stiffness, plate.fixed, options);
        warm.push_back(now() - start);
    }
    std::sort(warm.begin(), warm.end());
    m.warm = warm[warm.size() / 2];
    Eigen::MatrixXd rhs = Eigen::MatrixXd::Random(static_cast<int>(plate.fixed.size()), 10);
    for (Eigen::Index d = 0; d < rhs.rows(); ++d) {
        if (plate.fixed[d] != 0) {
            rhs.row(d).setZero();
        }
    }
    start = now();
    const Eigen::MatrixXd x = vrid::solve(factor, rhs, threads);
    m.solve = now() - start;
    m.residual = (plate.apply(x) - rhs).norm() / rhs.norm();
    m.unknowns = factor.cost.unknowns;
    const double limit = factor.cost.flops / rate / threads;
    std::printf("%9.0f %7zu %8.4f %8.4f %8.4f %7.2f %6.1f %6.2f %8.4f %7.1f %8.1e\n", m.unknowns,
                tree.fronts.size(), m.tree, m.cold, m.warm, factor.cost.flops * 1e-9,
                factor.cost.flops / m.warm * 1e-9, m.warm / limit, m.solve,
                factor.cost.bytes / 1048576, m.residual);
    return m;
}

// So that no timed part pays for the first touch of memory.
void touch_memory(double bytes) {
    const std::vector<char> memory(static_cast<std::size_t>(bytes), 1);
    std::printf("touched %.0f MB (%d)\n", bytes / 1048576, memory[memory.size() / 2]);
}

} // namespace

int main(int count, char** argument) {
    const double largest = count > 1 ? std::atof(argument[1]) : 3e5;
    const int threads = count > 2 ? std::atoi(argument[2]) : 1;
    openblas_set_num_threads(1);
    const char* forced = std::getenv("OPENBLAS_CORETYPE");
    const double rate = dgemm_rate();
    std::printf("OpenBLAS %s, OPENBLAS_CORETYPE %s, dgemm %.1f Gflop/s on one thread, %d threads\n",
                openblas_get_corename(), forced != nullptr ? forced : "not set", rate * 1e-9,
                threads);
    touch_memory(largest * 4000);
    for (const int p : {1, 2, 3, 4, 6}) {
        if (count > 3 && std::atoi(argument[3]) != p) {
            continue;
        }
        std::printf("degree %d\n%9s %7s %8s %8s %8s %7s %6s %6s %8s %7s %8s\n", p, "unknowns",
                    "fronts", "tree s", "cold s", "warm s", "Gflop", "Gf/s", "ratio", "10 rhs s",
                    "MB", "residual");
        std::vector<Measured> all;
        for (const double target : {1e4, 3e4, 1e5, 3e5, 1e6}) {
            if (target <= 1.01 * largest) {
                all.push_back(measure(Plate::of_size(target, p), rate, threads));
            }
        }
        if (all.size() > 1) {
            std::printf("growth: time ~ N^%.2f\n",
                        std::log(all.back().warm / all.front().warm) /
                            std::log(all.back().unknowns / all.front().unknowns));
        }
    }
}
