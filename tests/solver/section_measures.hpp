#pragma once

#include <cmath>

#include "solver/laminate/section.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid::tests {

inline double smallest_over_largest(const Eigen::MatrixXd& symmetric) {
    const VectorXd values = symmetric_eigen(symmetric).values;
    return values.minCoeff() / values.maxCoeff();
}

/// A B; B D with lengths measured in thicknesses, so that the entries compare.
inline Eigen::MatrixXd scaled_stiffness(const Section<double>& s, double thickness) {
    Eigen::MatrixXd C(6, 6);
    C << s.A * thickness * thickness, s.B * thickness, s.B * thickness, s.D;
    return C;
}

inline Eigen::Matrix2d rotation(double turn) {
    return Eigen::Matrix2d{{std::cos(turn), -std::sin(turn)}, {std::sin(turn), std::cos(turn)}};
}

/// The stiffnesses of the same laminate in axes turned by `turn` [rad]; S as a tensor, kept in the
/// order (yz, xz).
inline Section<double> turned_section(const Section<double>& s, double turn) {
    const Eigen::Matrix2d R = rotation(turn);
    const Matrix3<double> T = strain_turn(turn); // old strains to engineering strains in new axes
    Section<double> turned = s;
    turned.A = T.transpose() * s.A * T;
    turned.B = T.transpose() * s.B * T;
    turned.D = T.transpose() * s.D * T;
    const Eigen::Matrix2d swap{{0, 1}, {1, 0}};
    turned.S = swap * R * (swap * s.S * swap) * R.transpose() * swap;
    return turned;
}

} // namespace vrid::tests
