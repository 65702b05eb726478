#include "solver/design/match.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/design/best_values.hpp"
#include "solver/design/match_limits.hpp"
#include "solver/design/rounded_values.hpp"

namespace vrid {

namespace {

constexpr double repairable = 0.3;  // a miss that rounding makes up for anyway [percent]
constexpr int most_approaches = 14; // solves on the way to the continuous answer
constexpr int most_settlings = 6;   // fresh solves of rounded answers

// Values with what was found there.
struct Point {
    VectorXd values;
    NumbersAt found;
    double miss = HUGE_VAL; // against the windows as they are
    double bar_miss = 0;    // against those drawn in by the error bars
    double objective = 0;   // percent of the mass, or squared steps
};

class Matching {
  public:
    Matching(MatchProblem& problem, const Goal& goal, const NumbersOf& numbers_of)
        : problem_(problem), goal_(goal), numbers_of_(numbers_of) {}

    MatchResult run(const std::vector<double>& same_as) {
        const VectorXd start = problem_.start();
        curvature_ = MatrixXd::Zero(static_cast<Index>(problem_.numbers.size()), start.size());
        const NumbersAt found = solve(start, true);
        const std::vector<double> numbers = each_of(found.numbers, &Quantity::value);
        set_windows(problem_, goal_, numbers, same_as);
        before_ = judged(start, found);
        const WithinSlopes within = within_slopes(problem_, start, value_box(problem_));
        if (within.broken > 0) {
            MatchResult result = reported(before_);
            result.slopes_broken = within.broken;
            result.met = false;
            return result;
        }
        Point point = before_;
        if (within.values != start) {
            point = judged(within.values, solve(within.values, false));
        }
        probe_flat_angles(point);
        point = approached(point);
        const Point settled = this->settled(point);
        MatchResult result = reported(settled);
        if (!result.met) {
            result.obstacles = obstacles(problem_, model_of(point));
        }
        return result;
    }

  private:
    NumbersAt solve(const VectorXd& values, bool fresh) {
        ++solves_;
        return numbers_of_(values, fresh);
    }

    [[nodiscard]] Point judged(const VectorXd& values, const NumbersAt& found) const {
        Point point{values, found, 0, 0, 0};
        for (const Window& window : problem_.windows) {
            point.miss =
                std::max(point.miss, miss(problem_, window, found.numbers[window.number].value));
        }
        const LocalModel model = model_of(point);
        point.bar_miss = worst_miss(problem_, model, model.measures);
        point.objective =
            problem_.least == Least::change
                ? change(problem_, values)
                : problem_.measures[problem_.mass].of(found.numbers[problem_.mass].value);
        return point;
    }

    [[nodiscard]] LocalModel model_of(const Point& point, double bars = 1) const {
        return local_model(problem_, point.values, point.found, curvature_, bars);
    }

    // A number that is even in an angle does not move there at first: nothing tells the way. One
    // solve beside it gives the second derivative.
    void probe_flat_angles(const Point& point) {
        constexpr double aside = 8 * std::numbers::pi / 180;
        constexpr double flat = 5; // percent per radian: 0.7 in that turn
        const LocalModel model = model_of(point);
        for (std::size_t i = 0; i < problem_.values.size(); ++i) {
            const MatchValue& value = problem_.values[i];
            const auto column = static_cast<Index>(i);
            if (value.id.kind->property != DesignProperty::layer_angle ||
                model.slopes.col(column).cwiseAbs().maxCoeff() > flat) {
                continue;
            }
            VectorXd values = point.values;
            const double at = values[column];
            const double way = value.max - at > at - value.min ? std::min(aside, value.max - at)
                                                               : -std::min(aside, at - value.min);
            values[column] += way;
            const LocalModel there =
                local_model(problem_, values, solve(values, false), curvature_);
            curvature_.col(column) = (there.slopes.col(column) - model.slopes.col(column)) / way;
            flat_.emplace_back(column, way);
        }
    }

    // Where the optimiser begins: at the centre, and beside every angle that is flat there.
    [[nodiscard]] std::vector<VectorXd> starts(const LocalModel& model) const {
        std::vector<VectorXd> all{model.centre};
        VectorXd together = model.centre;
        for (const auto& [column, way] : flat_) {
            const MatchValue& value = problem_.values[static_cast<std::size_t>(column)];
            for (const double sign : {1.0, -1.0}) {
                VectorXd beside = model.centre;
                beside[column] = std::clamp(beside[column] + sign * way, value.min, value.max);
                all.push_back(beside);
                together[column] = sign > 0 ? beside[column] : together[column];
            }
        }
        if (flat_.size() > 1) {
            all.push_back(together);
        }
        return all;
    }

    [[nodiscard]] bool worth_it(double miss_now, double miss_then, double gained,
                                double objective_now) const {
        constexpr double least_gain = 0.02;  // percent, of a miss or of the mass
        constexpr double least_share = 0.01; // of the change or of a large miss
        if (miss_now - miss_then > std::max(least_gain, least_share * miss_now) &&
            miss_now > repairable) {
            return true;
        }
        return problem_.least == Least::mass
                   ? gained > least_gain
                   : gained > std::max(least_gain, least_share * objective_now);
    }

    // Solve after solve, each at the best of the last one's model inside the move limits.
    Point approached(Point point) {
        double move = 1;
        for (int tried = 0; tried < most_approaches; ++tried) {
            const LocalModel model = model_of(point);
            const double miss_now = worst_miss(problem_, model, model.measures);
            const BestValues best =
                best_values(problem_, model, move_box(problem_, point.values, move), starts(model));
            if (!worth_it(miss_now, best.miss,
                          objective(problem_, model, point.values) - best.objective,
                          point.objective)) {
                break;
            }
            const std::optional<Point> trial = tried_at(best.values);
            constexpr double shrink = 0.4;
            constexpr double grow = 1.6;
            constexpr double too_wrong = 0.5; // percent by which the model may err
            if (!trial) {
                move *= shrink;
                continue;
            }
            const LocalModel there = model_of(*trial);
            const double wrong =
                (measures_at(problem_, model, best.values) - there.measures).cwiseAbs().maxCoeff();
            const double miss_there = worst_miss(problem_, there, there.measures);
            const bool taken =
                miss_there < std::max(too_wrong, miss_now - 0.25 * (miss_now - best.miss));
            move *= !taken ? shrink : wrong > too_wrong ? 0.7 : wrong < 0.2 * too_wrong ? grow : 1;
            if (taken) {
                point = *trial;
            }
        }
        return point;
    }

    std::optional<Point> tried_at(const VectorXd& values) {
        try {
            return judged(values, solve(values, false));
        } catch (const SolveError&) {
            return std::nullopt; // no equilibrium there, say
        }
    }

    static bool better(const Point& a, const Point& b) {
        constexpr double same = 1e-6;
        if (std::abs(a.miss - b.miss) > same) {
            return a.miss < b.miss;
        }
        return std::abs(a.bar_miss - b.bar_miss) > same ? a.bar_miss < b.bar_miss
                                                        : a.objective < b.objective;
    }

    // The answer by a model: rounded, the values without a step fitted to that.
    [[nodiscard]] VectorXd answer_of(const LocalModel& model, const VectorXd& values,
                                     double move) const {
        ValueBox box = move_box(problem_, model.centre, move);
        VectorXd answer = values;
        if (has_rounding(problem_)) {
            answer = rounded_values(problem_, model, values);
            for (std::size_t i = 0; i < problem_.values.size(); ++i) {
                if (problem_.values[i].round_to) {
                    const auto at = static_cast<Index>(i);
                    box.low[at] = box.high[at] = answer[at];
                }
            }
        }
        if ((box.low - box.high).cwiseAbs().maxCoeff() > 0) {
            answer = best_values(problem_, model, box, {answer}).values;
        }
        return answer;
    }

    // Rounded, solved afresh, repaired by the model at that place, nearer and nearer, so that what
    // the model errs by dies out; the best that was seen, or the start if only that meets the goal.
    Point settled(const Point& reached) {
        constexpr double least_gain = 0.01; // of the objective: percent of the mass, squared steps
        constexpr double nearer = 0.6;
        double move = 0.3;
        std::vector<VectorXd> seen;
        std::optional<Point> best;
        LocalModel model = model_of(reached);
        VectorXd values = answer_of(model, reached.values, move);
        for (int tried = 0; tried < most_settlings; ++tried) {
            seen.push_back(values);
            const Point point = judged(values, solve(values, true));
            best = !best || better(point, *best) ? point : *best;
            constexpr double more_each_time =
                0.25; // bars and model err a little from board to board
            model = model_of(point, 1 + more_each_time * tried);
            move *= nearer;
            values = answer_of(model, point.values, move);
            const auto again = [&] {
                return std::ranges::any_of(seen, [&](const VectorXd& old) {
                    return (old - values).cwiseAbs().maxCoeff() < 1e-12;
                });
            };
            if (again() && point.bar_miss > 0) { // steps lead nowhere: round from another place
                const ValueBox box = move_box(problem_, point.values, 0.3);
                values = answer_of(model, best_values(problem_, model, box, {point.values}).values,
                                   move);
            }
            const double gained =
                objective(problem_, model, point.values) - objective(problem_, model, values);
            if (again() || (point.miss <= 0 && point.bar_miss <= 0 && gained < least_gain)) {
                break;
            }
        }
        return best->miss > 0 && before_.miss <= 0 ? before_ : *best;
    }

    [[nodiscard]] MatchResult reported(const Point& point) const {
        MatchResult result;
        result.values = point.values;
        for (const Window& window : problem_.windows) {
            const Quantity& before = before_.found.numbers[window.number];
            const Quantity& after = point.found.numbers[window.number];
            const double missed = told_miss(problem_, window, after.value);
            const bool clear = missed == 0 && after.value - after.error >= window.low &&
                               after.value + after.error <= window.high;
            result.targets.push_back({window, before, after, missed == 0, clear, missed});
            result.miss = std::max(result.miss, missed);
        }
        result.met = result.miss == 0;
        result.mass_before = before_.found.numbers[problem_.mass];
        result.mass_after = point.found.numbers[problem_.mass];
        result.change = change(problem_, point.values);
        result.active = active_limits(problem_, point.values);
        result.solves = solves_;
        return result;
    }

    MatchProblem& problem_;
    const Goal& goal_;
    const NumbersOf& numbers_of_;
    MatrixXd curvature_;
    std::vector<std::pair<Index, double>> flat_; // angles, and which way to look
    Point before_;
    int solves_ = 0;
};

} // namespace

MatchResult match(MatchProblem& problem, const Goal& goal, const std::vector<double>& same_as,
                  const NumbersOf& numbers_of) {
    return Matching(problem, goal, numbers_of).run(same_as);
}

} // namespace vrid
