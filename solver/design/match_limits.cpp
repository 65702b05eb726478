#include "solver/design/match_limits.hpp"

#include <algorithm>
#include <cmath>

#include "solver/design/rounded_values.hpp"

namespace vrid {

namespace {

constexpr double step_rounding = 1e-9; // of a step

// One step further.
double further(const MatchValue& value) {
    constexpr double of_a_step = 1e-3;
    return value.round_to ? *value.round_to * (1 - step_rounding) : of_a_step * value.step;
}

double slope_per_step(const MatchProblem& problem, const SlopeLimit& limit) {
    double step = HUGE_VAL;
    for (const auto& side : {limit.left, limit.right}) {
        if (side) {
            step = std::min(step, further(problem.values[*side]));
        }
    }
    return step / (limit.x_right - limit.x_left);
}

// The target that is missed most by the model, and by how much, for people.
Obstacle worst_told(const MatchProblem& problem, const LocalModel& model, const VectorXd& values) {
    const VectorXd measures = measures_at(problem, model, values);
    Obstacle worst;
    for (std::size_t j = 0; j < problem.windows.size(); ++j) {
        const auto at = static_cast<Index>(j);
        const std::size_t number = problem.windows[j].number;
        const auto value = [&](double measure) {
            return std::isfinite(measure) ? problem.measures[number].value(measure) : measure;
        };
        const Window window{number, value(model.low[at]), value(model.high[at])};
        const double missed =
            told_miss(problem, window, value(measures[static_cast<Index>(number)]));
        if (missed > worst.miss_without) {
            worst.miss_without = missed;
            worst.worst = j;
        }
    }
    return worst;
}

class Doubts {
  public:
    Doubts(const MatchProblem& problem, const LocalModel& model)
        : problem_(problem), model_(model), box_(move_box(problem, model.centre, 1)),
          far_(move_box(problem, model.centre, 3)),
          best_(best_values(problem, model, box_, {model.centre})) {}

    [[nodiscard]] double miss() const { return best_.miss; }

    std::vector<Obstacle> all() {
        if (problem_.windows.size() > 1) {
            for (std::size_t j = 0; j < problem_.windows.size(); ++j) {
                doubt_target(j);
            }
        }
        for (const ActiveLimit& limit : active_limits(problem_, best_.values)) {
            doubt_limit(limit);
        }
        std::ranges::stable_sort(found_, [](const Obstacle& a, const Obstacle& b) {
            return a.miss_without < b.miss_without - 1e-6;
        });
        return found_;
    }

  private:
    // What could be reached without it.
    void note(Obstacle::Kind kind, std::size_t index, const MatchProblem& problem,
              const LocalModel& model, const ValueBox& box) {
        constexpr double share = 0.05;  // of the miss, by leaving out a target
        constexpr double little = 0.05; // percent, by moving a limit a step
        const double least = kind == Obstacle::Kind::target ? share * best_.miss : little;
        const BestValues without = best_values(problem, model, box, {model.centre});
        if (best_.miss - without.miss > least) {
            found_.push_back(worst_told(problem, model, without.values));
            found_.back().kind = kind;
            found_.back().index = index;
        }
    }

    void doubt_target(std::size_t j) {
        LocalModel without = model_;
        without.low[static_cast<Index>(j)] = -HUGE_VAL;
        without.high[static_cast<Index>(j)] = HUGE_VAL;
        note(Obstacle::Kind::target, j, problem_, without, far_); // nothing holds it near
    }

    void doubt_limit(const ActiveLimit& limit) {
        const auto at = static_cast<Index>(limit.index);
        if (limit.kind == ActiveLimit::Kind::slope) {
            constexpr double more = 1.1;
            MatchProblem without = problem_;
            without.slopes[limit.index].max *= more;
            note(Obstacle::Kind::slope, limit.index, without, model_, box_);
            return;
        }
        ValueBox wider = box_;
        const MatchValue& value = problem_.values[limit.index];
        if (limit.kind == ActiveLimit::Kind::min) {
            const double lower = wider.low[at] - value.step;
            wider.low[at] = value.ratio ? std::max(lower, 0.5 * wider.low[at]) : lower;
            note(Obstacle::Kind::min, limit.index, problem_, model_, wider);
        } else {
            wider.high[at] += value.step;
            note(Obstacle::Kind::max, limit.index, problem_, model_, wider);
        }
    }

    const MatchProblem& problem_;
    const LocalModel& model_;
    ValueBox box_, far_;
    BestValues best_;
    std::vector<Obstacle> found_;
};

} // namespace

ValueBox value_box(const MatchProblem& problem) {
    ValueBox box{problem.start(), problem.start()};
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const auto at = static_cast<Index>(i);
        box.low[at] = std::min(problem.values[i].min, problem.values[i].start);
        box.high[at] = std::max(problem.values[i].max, problem.values[i].start);
    }
    return box;
}

ValueBox move_box(const MatchProblem& problem, const VectorXd& values, double move) {
    constexpr double share = 0.3;
    constexpr double steps = 15;
    ValueBox box = value_box(problem);
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const MatchValue& value = problem.values[i];
        const auto at = static_cast<Index>(i);
        const double reach = move * (value.ratio ? share * values[at] : steps * value.step);
        const double smallest = value.ratio ? 0.2 * values[at] : -HUGE_VAL; // never to 0
        box.low[at] = std::max({box.low[at], std::min(values[at] - reach, values[at]), smallest});
        box.high[at] = std::min(box.high[at], values[at] + reach);
    }
    return box;
}

std::vector<ActiveLimit> active_limits(const MatchProblem& problem, const VectorXd& values) {
    std::vector<ActiveLimit> active;
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const MatchValue& value = problem.values[i];
        const double at = values[static_cast<Index>(i)];
        if (at - further(value) < value.min) {
            active.push_back({ActiveLimit::Kind::min, i, at});
        } else if (at + further(value) > value.max) {
            active.push_back({ActiveLimit::Kind::max, i, at});
        }
    }
    for (std::size_t i = 0; i < problem.slopes.size(); ++i) {
        const SlopeLimit& limit = problem.slopes[i];
        const double slope = limit.slope(values);
        if (std::abs(slope) + slope_per_step(problem, limit) > limit.max) {
            active.push_back({ActiveLimit::Kind::slope, i, slope});
        }
    }
    return active;
}

std::vector<Obstacle> obstacles(const MatchProblem& problem, const LocalModel& model) {
    constexpr double met = 0.05; // percent
    Doubts doubts(problem, model);
    if (doubts.miss() < met && has_rounding(problem)) {
        return {{Obstacle::Kind::rounding, 0, doubts.miss()}};
    }
    return doubts.all();
}

} // namespace vrid
