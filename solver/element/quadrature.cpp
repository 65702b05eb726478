#include "solver/element/quadrature.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

namespace vrid {

Rule gauss(int n) {
    assert(n >= 1);
    Rule rule{Eigen::VectorXd::Zero(n), Eigen::VectorXd::Constant(n, 2.0)};
    if (n == 1) {
        return rule;
    }
    for (int i = 0; i < n; ++i) {
        double x = -std::cos(std::numbers::pi * (i + 0.75) / (n + 0.5));
        for (int step = 0; step < 10; ++step) {
            const Legendre p = legendre(n, x);
            x -= p.value / p.slope;
        }
        const double slope = legendre(n, x).slope;
        rule.point(i) = x;
        rule.weight(i) = 2 / ((1 - x * x) * slope * slope);
    }
    return rule;
}

Eigen::MatrixXd lagrange(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points) {
    Eigen::MatrixXd table(points.size(), nodes.size());
    for (Eigen::Index p = 0; p < points.size(); ++p) {
        for (Eigen::Index i = 0; i < nodes.size(); ++i) {
            double product = 1;
            for (Eigen::Index j = 0; j < nodes.size(); ++j) {
                if (j != i) {
                    product *= (points(p) - nodes(j)) / (nodes(i) - nodes(j));
                }
            }
            table(p, i) = product;
        }
    }
    return table;
}

Eigen::MatrixXd lagrange_slope(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points) {
    Eigen::MatrixXd table(points.size(), nodes.size());
    for (Eigen::Index p = 0; p < points.size(); ++p) {
        for (Eigen::Index i = 0; i < nodes.size(); ++i) {
            double sum = 0;
            for (Eigen::Index k = 0; k < nodes.size(); ++k) {
                if (k == i) {
                    continue;
                }
                double product = 1 / (nodes(i) - nodes(k));
                for (Eigen::Index j = 0; j < nodes.size(); ++j) {
                    if (j != i && j != k) {
                        product *= (points(p) - nodes(j)) / (nodes(i) - nodes(j));
                    }
                }
                sum += product;
            }
            table(p, i) = sum;
        }
    }
    return table;
}

MatrixXd tensor(const MatrixXd& xi, const MatrixXd& eta) {
    MatrixXd all(xi.rows() * eta.rows(), xi.cols() * eta.cols());
    for (Index b = 0; b < eta.rows(); ++b) {
        for (Index j = 0; j < eta.cols(); ++j) {
            all.block(b * xi.rows(), j * xi.cols(), xi.rows(), xi.cols()) = eta(b, j) * xi;
        }
    }
    return all;
}

} // namespace vrid
