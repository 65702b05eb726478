#pragma once

#include "mesh/board/eigen_names.hpp"
#include "mesh/lobatto.hpp"

namespace vrid {

/// Gauss-Legendre with n points, exact to degree 2n - 1. (Gauss-Lobatto: mesh/lobatto)
Rule gauss(int n);

/// Values of the Lagrange polynomials through `nodes` at `points`: row point, column node.
Eigen::MatrixXd lagrange(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points);

/// Their derivatives, same shape.
Eigen::MatrixXd lagrange_slope(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points);

/// Such a table on a tensor grid from those of its two directions; points and nodes xi fastest.
Eigen::MatrixXd tensor(const Eigen::MatrixXd& xi, const Eigen::MatrixXd& eta);

} // namespace vrid
