#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// Readings' worth of a shift: (z_alpha + z_beta)^2 (sd / shift)^2 with the normal's upper
/// quantiles (NIST/SEMATECH e-Handbook, 7.2.2.2). \param alpha of one side
double readings_needed(double shift_over_sd, double alpha, double beta);

/// Boards to see a shift of one deviation of a value (error 0.05 both sides, power 0.9).
struct BoardsNeeded {
    Eigen::Index value = 0;
    double alone = 0;          ///< if nothing else may move
    std::optional<double> all; ///< if all free values may; nothing: never, the rest can mimic it
};
std::vector<BoardsNeeded> boards_needed(const LotModel& model);

/// A set of one or two further readings of every board, and what it would tell.
struct NextReadings {
    std::vector<Eigen::Index> readings; ///< of the candidates
    double D = 0;                       ///< rise of ln det of the information on the shifts
    double A = 0;                       ///< sum of their variances over s^2, all readings in
    std::optional<double> rivals;       ///< variance of what parts two rivals, in their deviations
};
/// Further readings as rows of the model's kind; `value_sd`, groups and free values are the
/// model's.
struct Candidates {
    Eigen::MatrixXd slopes; ///< candidates x m
    Eigen::VectorXd rig_sd; ///< above 0
};
struct PlanOptions {
    double boards = 40; ///< of the next lot
    /// The shifts that D and A are about, of the free values; empty: all.
    std::vector<Eigen::Index> interest = {};
    /// Two values that the lot cannot tell apart.
    std::optional<std::pair<Eigen::Index, Eigen::Index>> rivals = {};
};
/// The free values that move a lot's readings most, each by its own deviation.
std::vector<Eigen::Index> strongest_values(const LotModel& model, std::size_t count);
/// The five best sets of up to two: those with the least variance between the rivals, or, without
/// rivals, the least A. The first entry, without readings, is the list as it is.
std::vector<NextReadings> next_readings(const LotModel& model, const Candidates& candidates,
                                        const PlanOptions& options);

} // namespace vrid
