#include "benchmarks/measure/elimination_time.hpp"

#include <cmath>

#include "benchmarks/measure/runs.hpp"

namespace vrid::measure {

std::vector<double> EliminationTime::ratios() const {
    return ratios_of(warm, limit);
}

std::vector<double> EliminationTime::totals() const {
    std::vector<double> all;
    for (std::size_t i = 0; i < warm.size(); ++i) {
        all.push_back((tree + warm[i] + solve) / limit[i]);
    }
    return all;
}

EliminationTime elimination_time(const Plate& plate, int threads) {
    const auto now = threads > 1 ? wall_seconds : cpu_seconds;
    const auto stiffness = [&](int, Eigen::MatrixXd& K) { K = plate.element; };
    vrid::FactorOptions options;
    options.means.threads = threads;
    EliminationTime time;
    double start = now();
    const auto tree = vrid::build_tree(plate.dofs);
    time.tree = now() - start;
    start = now();
    auto factor = vrid::factorise(tree, stiffness, plate.fixed, options);
    time.cold = now() - start;
    time.flops = factor.cost.flops;
    const int times = time.flops > 5e10 ? 3 : 5;
    for (int i = 0; i < times; ++i) {
        time.limit.push_back(time.flops / dgemm_rate() / threads);
        factor = {};
        start = now();
        factor = vrid::factorise(tree, stiffness, plate.fixed, options);
        time.warm.push_back(now() - start);
    }
    Eigen::MatrixXd rhs = Eigen::MatrixXd::Random(static_cast<int>(plate.fixed.size()), 10);
    for (Eigen::Index d = 0; d < rhs.rows(); ++d) {
        if (plate.fixed[static_cast<std::size_t>(d)] != 0) {
            rhs.row(d).setZero();
        }
    }
    start = now();
    const Eigen::MatrixXd x = vrid::solve(factor, rhs, threads);
    time.solve = now() - start;
    time.residual = (plate.apply(x) - rhs).norm() / rhs.norm();
    time.unknowns = factor.cost.unknowns;
    time.fronts = static_cast<double>(tree.fronts.size());
    time.bytes = factor.cost.bytes;
    return time;
}

double exponent(double size_from, double size_to, double from, double to) {
    return std::log(to / from) / std::log(size_to / size_from);
}

} // namespace vrid::measure
