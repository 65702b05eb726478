#pragma once

#include <optional>
#include <vector>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// A board that does not belong to its lot.
struct LotOutlier {
    Eigen::Index board = 0;
    double distance = 0; ///< D^2
    int cells = 0;
    /// The number without which the board fits, and how far its reading is from what the others
    /// say, unless a value explains plainly more (3.84 of D^2); else the value that explains most
    /// and how far it is off. SI.
    std::optional<Eigen::Index> reading, value;
    double by = 0;
};

/// The median of the 15 boards around each (fewer at the ends), as reading minus prediction: what
/// drifts moves it, one board does not. Taken along directions in which the numbers are independent
/// (S0 = L L^T, medians of L^-1 y): medians of numbers that go together would differ by far more
/// than the numbers do. A missing cell counts as the board's other cells expect it.
Eigen::MatrixXd running_medians(const LotModel& model, const LotCells& cells);

/// Boards whose D^2 about the running medians has a chi-square tail below 0.01 / boards.
/// \param V covariance of boards, the rig apart
std::vector<LotOutlier> lot_outliers(const LotModel& model, const LotCells& cells,
                                     const Eigen::MatrixXd& medians, const Eigen::MatrixXd& V);

} // namespace vrid
