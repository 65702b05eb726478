#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/match_problem.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// Numbers of the board at some values, with derivatives: one row a number, one column a value, SI.
struct NumbersAt {
    std::vector<Quantity> numbers;
    Eigen::MatrixXd slopes;
};

/// What the numbers are near a solved point: their measures as a sum over the values, each value
/// on its own. Stiffnesses are power laws of thicknesses, weights and constants (a uniform plate's
/// is one), everything else is linear; angles may have a second derivative.
struct LocalModel {
    Eigen::VectorXd centre;    ///< values, SI
    Eigen::VectorXd measures;  ///< of the numbers there
    Eigen::MatrixXd slopes;    ///< of the measures by the values: numbers x values
    Eigen::MatrixXd curvature; ///< the same, second; 0 for all but some angles
    /// By target: its window as measures, drawn in by the number's error bar (or 0.001 percent).
    Eigen::VectorXd low, high;
};

/// `bars`: how many error bars the windows are drawn in by, at either end.
LocalModel local_model(const MatchProblem& problem, const Eigen::VectorXd& centre,
                       const NumbersAt& found, const Eigen::MatrixXd& curvature, double bars = 1);

/// What value `i` at `value` adds to the measure of the number, and the derivative of that.
double addition(const MatchProblem& problem, const LocalModel& model, std::size_t number,
                std::size_t i, double value);
double addition_slope(const MatchProblem& problem, const LocalModel& model, std::size_t number,
                      std::size_t i, double value);

/// Measures of all numbers at these values.
Eigen::VectorXd measures_at(const MatchProblem& problem, const LocalModel& model,
                            const Eigen::VectorXd& values);

/// The worst miss of any target by these measures, against the drawn-in windows; 0: all met.
double worst_miss(const MatchProblem& problem, const LocalModel& model,
                  const Eigen::VectorXd& measures);

/// What is to be small, by the model: percent of the start's mass, or the sum of squared changes.
double objective(const MatchProblem& problem, const LocalModel& model,
                 const Eigen::VectorXd& values);

} // namespace vrid
