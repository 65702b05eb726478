#pragma once

#include <cstdint>
#include <vector>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// How a value moves after the first board: by one step, or further with every board.
enum class ChangeShape { step, ramp };

/// The best first board of one shape, and the boards that are nearly as good.
struct FirstBoard {
    double G2 = 0; ///< chi-square of one degree gained by it, the search apart
    Eigen::Index first = 0, from = 0, to = 0;
    /// How far the value has moved, SI: of a ramp until the last board. Mean and deviation over the
    /// boards from `from` to `to` that are nearly as good, each by its likelihood exp(G2 / 2).
    double shift = 0, sd = 0;
};

/// What has changed in a lot, if anything.
struct LotChange {
    Eigen::Index value = 0;
    ChangeShape shape = ChangeShape::step; ///< the better one
    FirstBoard step, ramp;
    double p = 1;                     ///< the search over values, boards and shapes paid for
    std::vector<Eigen::Index> rivals; ///< values within 3.84 of the best
    [[nodiscard]] const FirstBoard& best() const {
        return shape == ChangeShape::step ? step : ramp;
    }
};

struct ChangeOptions {
    int lots = 2000; ///< seeded ones behind p; fewer when p is plainly not small
    std::uint64_t seed = 1;
    int threads = 1;
};

/// Scans the scores of the free values, G = |sum f_i J_j^T S_i^-1 (y_i - m)| / sqrt(sum q_i f_i^2)
/// with f centred by the weights q_i = J_j^T S_i^-1 J_j, for the largest. Its p-value counts seeded
/// lots of the same missing pattern that reach it; when 50 have, no more are drawn (Besag and
/// Clifford, Sequential Monte Carlo p-values, Biometrika 78, 1991). Above 500 boards p comes from
/// 500 blocks of neighbours, of the lot and of the drawn ones alike.
LotChange lot_change(const LotModel& model, const LotCells& cells, const Eigen::MatrixXd& V,
                     const ChangeOptions& options);

/// The score of a value, z_i = J_j^T S_i^-1 (y_i - m) / sqrt(q_i), about the lot's centre or about
/// the model's mean; 0 for a board that does not see it.
Eigen::VectorXd value_score(const LotModel& model, const LotCells& cells, const Eigen::MatrixXd& V,
                            Eigen::Index value, bool about_centre = true);

/// Whether the groups of a text column differ: chi-square of their centres about the lot's.
struct ColumnTest {
    double statistic = 0;
    int degrees = 0; ///< 0: one group, or too many to tell
    double p = 1;
};
/// \param groups of each board, counted from 0; -1: not noted
ColumnTest column_test(const LotCells& cells, const Eigen::MatrixXd& V,
                       const std::vector<int>& groups);

} // namespace vrid
