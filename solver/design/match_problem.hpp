#pragma once

#include <optional>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/design_board.hpp"
#include "solver/design/goal.hpp"

namespace vrid {

/// One design value that may move.
struct MatchValue {
    DesignId id;
    double start = 0, min = 0, max = 0; ///< SI
    std::optional<double> round_to;     ///< SI
    double step = 1;                    ///< workshop_step: what counts as one unit of change
    bool ratio = false;    ///< numbers follow its logarithm rather than itself: above 0 always
    std::size_t table = 0; ///< which of Goal::free
    std::optional<double> station; ///< of a core thickness [m]
    std::vector<DesignId> carry;   ///< values that go along, times new over start
    std::vector<double> carried;   ///< what they are at the start, SI
    /// What the k-th of `carry` is at a value: to 0.01 mm, as a shop reads it; at the start as it
    /// was.
    [[nodiscard]] double carried_at(std::size_t k, double value) const;
};

/// Neighbouring stations of the core; one of them may stand still.
struct SlopeLimit {
    std::optional<std::size_t> left, right; ///< among the values
    double x_left = 0, x_right = 0;         ///< stations [m]
    double fixed = 0;                       ///< thickness of the one that stands still [m]
    double max = 0;                         ///< [m per m]
    /// Rise over run at these values.
    [[nodiscard]] double slope(const Eigen::VectorXd& values) const;
};

/// How a number is measured so that a miss of 1 means one percent: 100 ln f, or 100 f / scale.
struct Measure {
    bool logarithmic = false;
    double scale = 1;
    [[nodiscard]] double of(double value) const;
    [[nodiscard]] double slope(double value) const; ///< derivative by the value
    [[nodiscard]] double value(double measure) const;
};

/// What a target leaves its number, SI; infinite where open.
struct Window {
    std::size_t number = 0;
    double low = -HUGE_VAL, high = HUGE_VAL;
};

/// A goal in numbers: values, limits between them, numbers, windows.
struct MatchProblem {
    std::vector<MatchValue> values;
    std::vector<SlopeLimit> slopes;
    std::vector<NumberId> numbers;      ///< of the targets, each once; the mass is among them
    std::size_t mass = 0;               ///< which of the numbers it is
    std::vector<std::size_t> number_of; ///< by target
    std::vector<Measure> measures;      ///< by number
    std::vector<Window> windows;        ///< by target
    Least least = Least::change;
    [[nodiscard]] Eigen::VectorXd start() const;
    [[nodiscard]] std::vector<DesignId> ids() const;
    /// With what goes along.
    [[nodiscard]] SetValues set(const Eigen::VectorXd& values) const;
    /// Of the values those that move lines of the mesh.
    [[nodiscard]] std::vector<LineValue> lines() const;
};

/// All but measures and windows, which need the start's numbers.
MatchProblem match_problem(const Board& board, const Goal& goal);

/// Fills measures and windows. `start`: by number; `same_as`: by target, read for that kind only.
void set_windows(MatchProblem& problem, const Goal& goal, const std::vector<double>& start,
                 const std::vector<double>& same_as);

/// By how much the value lies outside, as the search measures it; 0 inside.
double miss(const MatchProblem& problem, const Window& window, double value);

/// The same for people: percent of the bound that is missed (of a bound at 0: of the start), of a
/// position millimetres, of an angle thousandths of a radian. 0 where the value is inside, or would
/// be but for more than the ten digits that documents show.
double told_miss(const MatchProblem& problem, const Window& window, double value);

/// Sum of squared changes, each in its workshop step.
double change(const MatchProblem& problem, const Eigen::VectorXd& values);

} // namespace vrid
