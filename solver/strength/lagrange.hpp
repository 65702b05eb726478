#pragma once

#include <Eigen/Core>

namespace vrid {

/// Values of the Lagrange polynomials through the nodes, and their slopes if wanted.
template <int n>
Eigen::Matrix<double, n, 1> lagrange_at(const Eigen::VectorXd& nodes, double x,
                                        Eigen::Matrix<double, n, 1>* slope = nullptr) {
    Eigen::Matrix<double, n, 1> value;
    for (int i = 0; i < n; ++i) {
        double product = 1;
        double by_x = 0;
        for (int k = 0; k < n; ++k) {
            if (k != i) {
                const double gap = nodes(i) - nodes(k);
                by_x = (by_x * (x - nodes(k)) + product) / gap;
                product *= (x - nodes(k)) / gap;
            }
        }
        value(i) = product;
        if (slope != nullptr) {
            (*slope)(i) = by_x;
        }
    }
    return value;
}

} // namespace vrid
