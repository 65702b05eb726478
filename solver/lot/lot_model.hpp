#pragma once

#include <cstddef>
#include <vector>

#include "mesh/board/eigen_names.hpp"

namespace vrid {

/// What the readings of a lot should be: k numbers, linear in m design values about the board as
/// designed. SI throughout solver/lot; nothing here knows a board.
struct LotModel {
    Eigen::VectorXd mean;           ///< predicted, k
    Eigen::MatrixXd slopes;         ///< derivatives by the values, k x m
    Eigen::VectorXd value_sd;       ///< of the values from board to board, above 0, m
    Eigen::VectorXd rig_sd;         ///< noise of one reading, above 0, k
    Eigen::VectorXd bias_sd;        ///< calibration of the rig, one draw a lot, k
    std::vector<std::size_t> group; ///< of each value; a group's values scatter by one factor
    std::size_t groups = 0;
    std::vector<Eigen::Index> free; ///< values that may have moved
    Eigen::VectorXd least, most;    ///< how far each of them can be moved, m; empty: anywhere
};

/// Whether a value may stand this far from where it should: no thickness below nothing, and no more
/// than fifty deviations. Wrong cloth or wood is a dozen or two; what would have to move farther
/// hardly moves the numbers, and takes up what the model itself lacks.
bool can_move(const LotModel& model, Eigen::Index value, double shift);

/// Readings, a column a board in order of time.
struct LotReadings {
    Eigen::MatrixXd value; ///< mean of a cell's readings, k x boards; nan: not measured
    Eigen::MatrixXi count; ///< readings in it, 0: not measured
};

/// Boards with the same cells measured equally often.
struct Pattern {
    std::vector<Eigen::Index> seen;   ///< numbers measured, rising
    Eigen::VectorXd rig_variance;     ///< of each
    std::vector<Eigen::Index> boards; ///< rising
};

/// The readings about the prediction, boards sorted by what was measured.
struct LotCells {
    Eigen::MatrixXd residual; ///< reading minus prediction, k x boards; 0 where not measured
    std::vector<Pattern> patterns;
    std::vector<std::size_t> pattern; ///< of each board
};
LotCells lot_cells(const LotModel& model, const LotReadings& readings);

/// J diag(s^2) J^T: what boards scatter by, the rig apart, k x k.
Eigen::MatrixXd board_covariance(const LotModel& model);
/// The part of one group.
Eigen::MatrixXd group_covariance(const LotModel& model, std::size_t group);

/// Weight of a pattern's boards: H^T S^-1 H with S = H V H^T + R, H what they have of the numbers.
struct LotWeight {
    Eigen::MatrixXd matrix; ///< k x k, 0 where not measured
    double log_det = 0;     ///< of S
};
LotWeight lot_weight(const Pattern& pattern, const Eigen::MatrixXd& V);
std::vector<LotWeight> lot_weights(const LotCells& cells, const Eigen::MatrixXd& V);

/// The centre of a lot as reading minus prediction, each board by its own cells.
struct LotCentre {
    Eigen::VectorXd mean;       ///< C sum H_i^T S_i^-1 y_i
    Eigen::MatrixXd covariance; ///< C = (sum H_i^T S_i^-1 H_i)^-1
};
/// Every number is measured on one board at least.
LotCentre lot_centre(const LotCells& cells, const std::vector<LotWeight>& weights);

/// Per pattern all that a likelihood needs of its boards.
struct PatternSums {
    double boards = 0;
    Eigen::VectorXd sum;   ///< of the residuals, k
    Eigen::MatrixXd outer; ///< of residual residual^T, k x k
};
std::vector<PatternSums> pattern_sums(const LotCells& cells);

/// Minus twice the restricted log-likelihood of boards with covariance V and the rig's noise about
/// a common centre, up to a constant (Patterson and Thompson, Biometrika 58, 1971).
double restricted_deviance(const LotCells& cells, const std::vector<PatternSums>& sums,
                           const Eigen::MatrixXd& V);

/// The part of a lot: some boards, and of the numbers those that `boards` measured at least twice.
struct LotPart {
    std::vector<Eigen::Index> boards, numbers; ///< of the whole
    LotModel model;
    LotReadings readings;
};
LotPart lot_part(const LotModel& model, const LotReadings& readings,
                 const std::vector<Eigen::Index>& boards);

} // namespace vrid
