#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/board_numbers.hpp"
#include "solver/response/section_weights.hpp"
#include "solver/strength_study.hpp"

namespace vrid {

/// What loads at first failure owe to the design values.
struct StrengthSlopes {
    SectionWeights weights; ///< by what the board's motion owes to the section: one column a number
    Eigen::MatrixXd direct; ///< by what the laminate at the place is: numbers x values of `design`
    std::vector<std::string> warnings; ///< of numbers with a kink
};

/// The place, layer and way of the failure are held: at a least value of several they may change,
/// and the number has a kink there. The load factor L of a place depends on its mean strain m and
/// on its laminate: dL = L_m dm + L_p dp, L_m dm = -l^T dK u with K l = W^T L_m, W the means over
/// the disc (the adjoint of a stress: Haftka and Guerdal, Elements of Structural Optimization,
/// 1992, ch. 7; from memory). L_p by central differences of the one laminate.
/// \param result of the design's board, models kept \param wanted of Kind::strength, each of a
/// case with a failure
StrengthSlopes strength_slopes(const DesignBoard& design, const StrengthResult& result,
                               const std::vector<NumberId>& wanted, int threads);

/// The failure that a number is of; null: none.
const FailurePlace* failure_of(const StrengthResult& result, const NumberId& request);
/// Numbers of strength with all that their derivatives are made of.
struct FoundStrength {
    std::vector<Quantity> values;            ///< in the order of the requests
    std::shared_ptr<SectionWeights> weights; ///< null without slopes
    Eigen::MatrixXd direct;                  ///< as StrengthSlopes
    Eigen::MatrixXd by_lines;                ///< numbers x NumbersOptions::lines
    std::vector<std::string> warnings;
    SharedPrepared prepared; ///< what it was run on
};

/// Derivatives by values that move lines are of whole solves of boards one hundredth of the value
/// (at least half a millimetre) either way, each on a mesh of its own, as the place of the failure
/// moves with the lines: good to some percent. \throws InputError; SolveError, also where no layer
/// has strengths to be judged by
FoundStrength found_strength(const DesignBoard& design, const std::vector<NumberId>& wanted,
                             const NumbersOptions& options);

} // namespace vrid
