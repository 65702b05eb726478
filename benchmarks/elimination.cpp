// Multifrontal elimination of a plate 1.5 x 0.25 m, one thread: seconds against the limit set by
// dense multiplication (flops / measured rate of dgemm in the same run), memory, growth.
// Arguments: the largest number of unknowns (default 3e5), threads (default 1),
// a single degree (default: several).

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <vector>

#include <cblas.h>

#include "solver/system/elimination.hpp"

namespace {

using vrid::node_dofs;

double cpu_seconds() {
    timespec t{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

double wall_seconds() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

// [flop/s] of a product of square matrices, the best of some.
double dgemm_rate() {
    constexpr int n = 1200;
    const Eigen::MatrixXd a = Eigen::MatrixXd::Random(n, n);
    Eigen::MatrixXd c = Eigen::MatrixXd::Zero(n, n);
    double best = 1e300;
    for (int i = 0; i < 4; ++i) {
        const double start = cpu_seconds();
        cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, n, n, n, 1, a.data(), n, a.data(), n,
                    0, c.data(), n);
        best = std::min(best, cpu_seconds() - start);
    }
    return 2.0 * n * n * n / best;
}

// Lagrange polynomials on Chebyshev-Lobatto points over [0, h]: integrals of products.
struct Line {
    Eigen::MatrixXd mass, stiff, mixed; ///< f_i f_j, f_i' f_j', f_i' f_j

    Line(int p, double h) : mass(Eigen::MatrixXd::Zero(p + 1, p + 1)), stiff(mass), mixed(mass) {
        std::vector<double> x(p + 1);
        for (int i = 0; i <= p; ++i) {
            x[i] = 0.5 * h * (1 - std::cos(M_PI * i / p));
        }
        constexpr int points = 400; // midpoint rule: good enough to time with
        for (int q = 0; q < points; ++q) {
            const double t = (q + 0.5) * h / points;
            Eigen::VectorXd f = Eigen::VectorXd::Ones(p + 1);
            Eigen::VectorXd d = Eigen::VectorXd::Zero(p + 1);
            for (int i = 0; i <= p; ++i) {
                for (int j = 0; j <= p; ++j) {
                    if (j != i) {
                        d[i] = (d[i] * (t - x[j]) + f[i]) / (x[i] - x[j]);
                        f[i] *= (t - x[j]) / (x[i] - x[j]);
                    }
                }
            }
            mass += h / points * f * f.transpose();
            stiff += h / points * d * d.transpose();
            mixed += h / points * d * f.transpose();
        }
    }
};

// A plate 10 mm thick, shear integrated in full: not good at bending, but of its size and scale.
Eigen::MatrixXd plate_element(int p, double hx, double hy) {
    const Line x(p, hx);
    const Line y(p, hy);
    const int side = p + 1;
    const int nodes = side * side;
    Eigen::MatrixXd K(node_dofs * nodes, node_dofs * nodes);
    constexpr double A = 4e7, B = 4e4, D = 4e2, G = 2e6, nu = 0.3, half = 0.35;
    for (int a = 0; a < nodes; ++a) {
        for (int b = 0; b < nodes; ++b) {
            const int ax = a % side, ay = a / side, bx = b % side, by = b / side;
            const double xx = x.stiff(ax, bx) * y.mass(ay, by);
            const double yy = x.mass(ax, bx) * y.stiff(ay, by);
            const double xy = x.mixed(ax, bx) * y.mixed(by, ay);
            const double yx = x.mixed(bx, ax) * y.mixed(ay, by);
            const double mm = x.mass(ax, bx) * y.mass(ay, by);
            Eigen::Matrix2d plane;
            plane << xx + half * yy, nu * xy + half * yx, nu * yx + half * xy, yy + half * xx;
            auto k = K.block<5, 5>(Eigen::Index{5} * a, Eigen::Index{5} * b);
            k.setZero();
            k.block<2, 2>(0, 0) = A * plane;
            k.block<2, 2>(0, 3) = B * plane;
            k.block<2, 2>(3, 0) = B * plane;
            k.block<2, 2>(3, 3) = D * plane + G * mm * Eigen::Matrix2d::Identity();
            k(2, 2) = G * (xx + yy);
            k(2, 3) = G * x.mixed(ax, bx) * y.mass(ay, by);
            k(2, 4) = G * x.mass(ax, bx) * y.mixed(ay, by);
            k(3, 2) = G * x.mixed(bx, ax) * y.mass(ay, by);
            k(4, 2) = G * x.mass(ax, bx) * y.mixed(by, ay);
        }
    }
    return K;
}

struct Plate {
    vrid::ElementDofs dofs;
    Eigen::MatrixXd element;
    std::vector<char> fixed; ///< one end clamped

    Plate(int nx, int ny, int p) : element(plate_element(p, 1.5 / nx, 0.25 / ny)) {
        const int along = nx * p + 1;
        dofs.nodes = along * (ny * p + 1);
        dofs.first = {0};
        for (int e = 0; e < nx * ny; ++e) {
            const int ex = e % nx, ey = e / nx;
            for (int i = 0; i < (p + 1) * (p + 1); ++i) {
                dofs.node.push_back((ey * p + i / (p + 1)) * along + ex * p + i % (p + 1));
            }
            dofs.first.push_back(static_cast<int>(dofs.node.size()));
            dofs.centroid.emplace_back((ex + 0.5) * 1.5 / nx, (ey + 0.5) * 0.25 / ny);
        }
        fixed.assign(static_cast<std::size_t>(node_dofs) * dofs.nodes, 0);
        for (int n = 0; n < dofs.nodes; n += along) {
            std::fill_n(fixed.begin() + static_cast<std::ptrdiff_t>(node_dofs) * n, node_dofs, 1);
        }
    }

    [[nodiscard]] Eigen::MatrixXd apply(const Eigen::MatrixXd& x) const {
        Eigen::MatrixXd y = Eigen::MatrixXd::Zero(x.rows(), x.cols());
        Eigen::MatrixXd part(element.rows(), x.cols());
        for (std::size_t e = 0; e + 1 < dofs.first.size(); ++e) {
            for (int i = dofs.first[e]; i < dofs.first[e + 1]; ++i) {
                part.middleRows<5>(Eigen::Index{5} * (i - dofs.first[e])) =
                    x.middleRows<5>(Eigen::Index{5} * dofs.node[i]);
            }
            const Eigen::MatrixXd force = element * part;
            for (int i = dofs.first[e]; i < dofs.first[e + 1]; ++i) {
                y.middleRows<5>(Eigen::Index{5} * dofs.node[i]) +=
                    force.middleRows<5>(Eigen::Index{5} * (i - dofs.first[e]));
            }
        }
        for (Eigen::Index d = 0; d < y.rows(); ++d) {
            if (fixed[d] != 0) {
                y.row(d).setZero();
            }
        }
        return y;
    }
};

struct Measured {
    double unknowns = 0, tree = 0, cold = 0, warm = 0, solve = 0, residual = 0;
};

Measured measure(const Plate& plate, double rate, int threads) {
    const auto now = threads > 1 ? wall_seconds : cpu_seconds;
    const auto stiffness = [&](int, Eigen::MatrixXd& K) { K = plate.element; };
    vrid::FactorOptions options;
    options.threads = threads;
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
                const int ny =
                    std::max(2, static_cast<int>(std::lround(std::sqrt(target / 30) / p)));
                all.push_back(measure(Plate(6 * ny, ny, p), rate, threads));
            }
        }
        if (all.size() > 1) {
            std::printf("growth: time ~ N^%.2f\n",
                        std::log(all.back().warm / all.front().warm) /
                            std::log(all.back().unknowns / all.front().unknowns));
        }
    }
}
