#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/best_values.hpp"
#include "solver/design/match.hpp"

namespace vrid {

/// All that min and max allow.
ValueBox value_box(const MatchProblem& problem);

/// Of that, what lies within reach of the values at once: 0.3 of a value that is followed by its
/// logarithm, else 15 workshop steps, both times `move`.
ValueBox move_box(const MatchProblem& problem, const Eigen::VectorXd& values, double move);

/// The limits that the values lie on: a step of round_to further (or a thousandth of a workshop
/// step) would break them.
std::vector<ActiveLimit> active_limits(const MatchProblem& problem, const Eigen::VectorXd& values);

/// Which targets and limits keep the worst target from being met, by a model at the place that
/// comes nearest: targets without which it would be missed by a twentieth less, limits
/// that, one step further, would take 0.05 percent from the miss. Rounding
/// alone, if by the model there is an answer without it.
std::vector<Obstacle> obstacles(const MatchProblem& problem, const LocalModel& model);

} // namespace vrid
