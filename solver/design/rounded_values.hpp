#pragma once

#include <Eigen/Core>

#include "solver/design/local_model.hpp"

namespace vrid {

/// Every value that has a round_to at a multiple of it inside min and max, the others as they are.
/// From the nearest multiples the search goes by steps of one, two and three values at once (a
/// station may drag its neighbours along to keep the slopes), each time the one that does best by
/// the model: first the slope limits, then the targets, then the
/// objective. The same for the same input.
Eigen::VectorXd rounded_values(const MatchProblem& problem, const LocalModel& model,
                               const Eigen::VectorXd& values);

/// Whether any value has a round_to.
bool has_rounding(const MatchProblem& problem);

} // namespace vrid
