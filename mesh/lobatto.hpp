#pragma once

#include <vector>

#include <Eigen/Core>

namespace vrid {

/// Legendre polynomial P_n and its derivative at a point inside (-1, 1).
struct Legendre {
    double value, slope;
};
Legendre legendre(int n, double x);

/// Points and weights on [-1, 1].
struct Rule {
    Eigen::VectorXd point, weight;
};

/// Gauss-Lobatto with n >= 2 points (both ends included), exact to degree 2n - 3.
Rule lobatto(int n);

/// Gauss-Lobatto points of degree g, g + 1 of them on 0..1, rising.
const std::vector<double>& lobatto_shares(int degree);

/// Derivative matrix of the polynomials through these points: row i gives the derivative by the
/// share at point i from the values at all points, (g+1) x (g+1).
const Eigen::MatrixXd& lobatto_derivative(int degree);

} // namespace vrid
