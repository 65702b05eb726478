#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/local_model.hpp"

namespace vrid {

/// Where values may go, SI.
struct ValueBox {
    Eigen::VectorXd low, high;
};

/// The best values by a local model.
struct BestValues {
    Eigen::VectorXd values;
    double miss = 0;      ///< the worst, by the model [percent]; 0: every target is met
    double objective = 0; ///< as objective() has it
};

/// Values inside the box that keep the slope limits and miss the worst target by as little as can
/// be; of all that do, those with the least objective.  Begins at each of `starts` and takes the
/// best, which is not empty; the same for the same input. A start outside the slope limits is drawn
/// in as far as the box allows. (SLSQP of NLopt: D. Kraft, A software package for sequential
/// quadratic programming, DFVLR-FB 88-28, 1988)
BestValues best_values(const MatchProblem& problem, const LocalModel& model, const ValueBox& box,
                       const std::vector<Eigen::VectorXd>& starts);

/// The nearest values (least change in workshop steps) inside the box that keep the slope limits;
/// `broken` is by how much [m per m] the worst is exceeded where none do.
struct WithinSlopes {
    Eigen::VectorXd values;
    double broken = 0;
};
WithinSlopes within_slopes(const MatchProblem& problem, const Eigen::VectorXd& values,
                           const ValueBox& box);

} // namespace vrid
