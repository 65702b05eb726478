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

/// Each number's median over the 15 boards around that have it (fewer at the ends), as reading
/// minus prediction: what drifts moves it, one board does not.
Eigen::MatrixXd running_medians(const LotCells& cells);

/// Boards whose D^2 about the running medians has a chi-square tail below 0.01 / boards.
/// \param V covariance of boards, the rig apart
std::vector<LotOutlier> lot_outliers(const LotModel& model, const LotCells& cells,
                                     const Eigen::MatrixXd& medians, const Eigen::MatrixXd& V);

} // namespace vrid
