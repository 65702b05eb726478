#pragma once

#include "solver/lot/change.hpp"

namespace vrid {

constexpr double as_good = 3.84; ///< of G2: 95 % of chi-square with one degree

/// Sums that scans of the same weights share, for one value. Everything runs from the last board
/// back: sums of the tail from board c on give the step, sums of those sums the ramp that begins
/// at c.
class ChangeScan {
  public:
    explicit ChangeScan(const Eigen::VectorXd& q);

    /// Chi-square gained by a change of this shape that begins at each board, for the scores u.
    [[nodiscard]] Eigen::VectorXd gains(const Eigen::VectorXd& u, ChangeShape shape) const;
    /// The largest of both shapes.
    [[nodiscard]] double largest(const Eigen::VectorXd& u) const;
    /// The best first board of this shape, and how far the value has moved since.
    [[nodiscard]] FirstBoard best(const Eigen::VectorXd& u, ChangeShape shape) const;

  private:
    [[nodiscard]] Eigen::VectorXd contrasts(const Eigen::VectorXd& u, ChangeShape shape) const;
    void add_shift(const Eigen::VectorXd& u, ChangeShape shape, const Eigen::VectorXd& gains,
                   FirstBoard& first) const;

    struct Shape {
        Eigen::VectorXd share;   ///< sum q f / sum q
        Eigen::VectorXd inverse; ///< 1 / sum q (f - share)^2; 0 where nothing can be told
    };
    Shape step_, ramp_;
};

FirstBoard first_board(const Eigen::VectorXd& gains);

} // namespace vrid
