#pragma once

#include <Eigen/Core>

namespace vrid {

/// The Lagrange polynomials through n nodes.
template <int n> class Lagrange {
  public:
    using Row = Eigen::Matrix<double, n, 1>;

    explicit Lagrange(const Eigen::VectorXd& nodes) : node_(nodes) {
        for (int i = 0; i < n; ++i) {
            double product = 1;
            for (int k = 0; k < n; ++k) {
                product *= k == i ? 1 : node_(i) - node_(k);
            }
            scale_(i) = 1 / product;
        }
    }

    /// Values at x, and slopes if wanted: products of the gaps below and above each node.
    [[nodiscard]] Row at(double x, Row* slope = nullptr) const {
        Row below; // product of x - node over the nodes before i, and its slope
        Row below_by_x;
        below(0) = 1;
        below_by_x(0) = 0;
        for (int i = 1; i < n; ++i) {
            const double gap = x - node_(i - 1);
            below(i) = below(i - 1) * gap;
            below_by_x(i) = below_by_x(i - 1) * gap + below(i - 1);
        }
        Row value;
        double above = 1;
        double above_by_x = 0;
        for (int i = n - 1; i >= 0; --i) {
            value(i) = scale_(i) * below(i) * above;
            if (slope != nullptr) {
                (*slope)(i) = scale_(i) * (below_by_x(i) * above + below(i) * above_by_x);
            }
            const double gap = x - node_(i);
            above_by_x = above_by_x * gap + above;
            above *= gap;
        }
        return value;
    }

  private:
    Row node_;
    Row scale_;
};

} // namespace vrid
