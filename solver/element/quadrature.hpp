#pragma once

#include <Eigen/Core>

namespace vrid {

/// Points and weights on [-1, 1].
struct Rule {
    Eigen::VectorXd point, weight;
};

/// Gauss-Legendre with n points, exact to degree 2n - 1.
Rule gauss(int n);

/// Gauss-Lobatto with n >= 2 points (both ends included), exact to degree 2n - 3.
Rule lobatto(int n);

/// Values of the Lagrange polynomials through `nodes` at `points`: row point, column node.
Eigen::MatrixXd lagrange(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points);

/// Their derivatives, same shape.
Eigen::MatrixXd lagrange_slope(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points);

} // namespace vrid
