#pragma once

#include <vector>

#include <Eigen/Core>

namespace vrid {

/// Gauss-Lobatto points of degree g, g + 1 of them on 0..1, rising.
const std::vector<double>& lobatto_shares(int degree);

/// Derivative matrix of the polynomials through these points: row i gives the derivative by the
/// share at point i from the values at all points, (g+1) x (g+1).
const Eigen::MatrixXd& lobatto_derivative(int degree);

} // namespace vrid
