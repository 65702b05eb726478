#pragma once

#include <functional>
#include <vector>

#include <Eigen/Core>

#include "solver/design/goal.hpp"
#include "solver/design/local_model.hpp"
#include "solver/design/match_problem.hpp"

namespace vrid {

/// Numbers and derivatives at values of a problem (its order, SI). `fresh`: as whoever solves the
/// answer will have them, with a mesh of its own; else on the start's mesh.
/// \throws SolveError where there are none: the search then keeps away
using NumbersOf = std::function<NumbersAt(const Eigen::VectorXd& values, bool fresh)>;

/// A limit that the answer lies on: one step further would break it.
struct ActiveLimit {
    enum class Kind { min, max, slope };
    Kind kind = Kind::min;
    std::size_t index = 0; ///< of MatchProblem::values, for a slope of MatchProblem::slopes
    double value = 0;      ///< there, SI; for a slope as SlopeLimit::slope
};

/// What stands in the way, and how far off the worst target would be without it, as told_miss has
/// it. Of a limit: moved by one workshop step, of a slope by a tenth.
struct Obstacle {
    enum class Kind { target, min, max, slope, rounding };
    Kind kind = Kind::target;
    std::size_t index = 0; ///< of Goal::targets, MatchProblem::values or ::slopes
    double miss_without = 0;
    std::size_t worst = 0; ///< that target, of Goal::targets
};

struct MatchedTarget {
    Window window;
    Quantity before, after;
    bool met = false;
    bool clear = false; ///< with the whole error bar inside
    double miss = 0;    ///< outside the window, as told_miss has it
};

struct MatchResult {
    bool met = false;
    std::vector<MatchedTarget> targets; ///< in the goal's order
    Eigen::VectorXd values;             ///< of the answer, or of the nearest to one
    Quantity mass_before, mass_after;
    double change = 0; ///< sum of squared changes, each in its workshop step
    std::vector<ActiveLimit> active;
    double miss = 0;                 ///< the worst target's
    std::vector<Obstacle> obstacles; ///< where no answer is; the largest help first
    double slopes_broken = 0;        ///< above 0: no values keep the slope limits; nothing solved
    int solves = 0;
};

/// Moves the problem's values until every number is inside its target's window, with the least of
/// the objective, each value a multiple of its round_to. Each full solve gives a local model
/// (LocalModel) that is optimised inside move limits; rounding is a search on the model. The answer
/// is solved afresh and judged by that. Where no answer is found the one that misses the worst
/// target by least is given. Same input, same output. `problem` gets its windows from the start's
/// numbers; `same_as` by target, read for that kind only. \throws SolveError if the start has no
/// numbers
MatchResult match(MatchProblem& problem, const Goal& goal, const std::vector<double>& same_as,
                  const NumbersOf& numbers_of);

} // namespace vrid
