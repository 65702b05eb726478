#pragma once

#include <algorithm>
#include <cmath>
#include <ctime>
#include <vector>

#include <Eigen/Core>
#include <cblas.h>

#include "solver/system/elimination.hpp"

// A plate 1.5 x 0.25 m to time the elimination with, and the clock and the yardstick for it.

using vrid::node_dofs;

inline double cpu_seconds() {
    timespec t{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

// [flop/s] of a product of square matrices, the best of some.
inline double dgemm_rate() {
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
inline Eigen::MatrixXd plate_element(int p, double hx, double hy) {
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

    /// Square elements of degree p, about so many unknowns.
    static Plate of_size(double unknowns, int p) {
        const int ny = std::max(2, static_cast<int>(std::lround(std::sqrt(unknowns / 30) / p)));
        return {6 * ny, ny, p};
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
