#include "solver/design/rounded_values.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace vrid {

namespace {

constexpr double rounding = 1e-9; // of limits in steps, and of slopes

// How good values are; the smaller the better, in this order.
struct Merit {
    double slope = 0, miss = 0, objective = 0;
    [[nodiscard]] bool better_than(const Merit& other) const {
        constexpr double same = 1e-9;
        if (std::abs(slope - other.slope) > same) {
            return slope < other.slope;
        }
        if (std::abs(miss - other.miss) > same) {
            return miss < other.miss;
        }
        return objective < other.objective - same;
    }
};

// One value a step up or down, or with it the stations that the slope limits drag along; and what
// that adds to measures and objective.
struct Step {
    std::vector<Index> values;
    std::vector<double> to;
    VectorXd measures;
    double objective = 0;
};

class Search {
  public:
    Search(const MatchProblem& problem, const LocalModel& model, VectorXd values)
        : problem_(problem), model_(model), values_(std::move(values)) {
        for (std::size_t i = 0; i < problem.values.size(); ++i) {
            if (problem.values[i].round_to) {
                values_[static_cast<Index>(i)] =
                    nearest(problem.values[i], values_[static_cast<Index>(i)]);
            }
        }
    }

    VectorXd run() {
        constexpr int most_moves = 400;
        for (int move = 0; move < most_moves && improve(); ++move) {
        }
        return values_;
    }

  private:
    static double nearest(const MatchValue& value, double at) {
        const double unit = *value.round_to;
        const double lowest = std::ceil(value.min / unit - rounding);
        const double highest = std::floor(value.max / unit + rounding);
        return unit * std::clamp(std::round(at / unit), lowest, highest);
    }

    void find_steps() {
        steps_.clear();
        for (std::size_t i = 0; i < problem_.values.size(); ++i) {
            for (const double way : {-1.0, 1.0}) {
                const VectorXd moved = one_further(values_, i, way);
                if (moved == values_) {
                    continue;
                }
                steps_.push_back(step_to(moved));
                const VectorXd dragged = with_neighbours(moved, i);
                if (dragged != moved) {
                    steps_.push_back(step_to(dragged));
                }
            }
        }
    }

    [[nodiscard]] VectorXd one_further(VectorXd values, std::size_t i, double way) const {
        const MatchValue& value = problem_.values[i];
        if (value.round_to) {
            double& at = values[static_cast<Index>(i)];
            const double to = nearest(value, at + way * *value.round_to);
            at = std::abs(to - at) < rounding * *value.round_to ? at : to;
        }
        return values;
    }

    // Stations beside `first` and on, each moved until the slopes are kept, if that can be.
    [[nodiscard]] VectorXd with_neighbours(const VectorXd& moved, std::size_t first) const {
        constexpr int most = 200;
        VectorXd values = moved;
        std::vector<bool> done(problem_.values.size(), false);
        done[first] = true;
        for (int round = 0; round < most; ++round) {
            const auto broken = std::ranges::find_if(problem_.slopes, [&](const SlopeLimit& limit) {
                const bool left = limit.left && done[*limit.left];
                const bool right = limit.right && done[*limit.right];
                return left != right && is_broken(limit, values);
            });
            if (broken == problem_.slopes.end()) {
                return values;
            }
            const bool left = broken->left && done[*broken->left];
            const auto& other = left ? broken->right : broken->left;
            if (!other) {
                return moved; // it stands still
            }
            const double way = (broken->slope(values) > 0) == left ? -1 : 1;
            VectorXd next = values;
            while (is_broken(*broken, next)) {
                const VectorXd further = one_further(next, *other, way);
                if (further == next) {
                    return moved; // at its limit
                }
                next = further;
            }
            values = next;
            done[*other] = true;
        }
        return moved;
    }

    static bool is_broken(const SlopeLimit& limit, const VectorXd& values) {
        return std::abs(limit.slope(values)) > limit.max + rounding;
    }

    [[nodiscard]] Step step_to(const VectorXd& moved) const {
        Step made{{}, {}, VectorXd::Zero(model_.measures.size()), 0};
        for (std::size_t i = 0; i < problem_.values.size(); ++i) {
            const auto at = static_cast<Index>(i);
            if (moved[at] == values_[at]) {
                continue;
            }
            made.values.push_back(at);
            made.to.push_back(moved[at]);
            for (std::size_t k = 0; k < problem_.numbers.size(); ++k) {
                made.measures[static_cast<Index>(k)] +=
                    addition(problem_, model_, k, i, moved[at]) -
                    addition(problem_, model_, k, i, values_[at]);
            }
            const MatchValue& value = problem_.values[i];
            const double a = (values_[at] - value.start) / value.step;
            const double b = (moved[at] - value.start) / value.step;
            made.objective += b * b - a * a;
        }
        if (problem_.least == Least::mass) {
            made.objective = made.measures[static_cast<Index>(problem_.mass)];
        }
        return made;
    }

    [[nodiscard]] double slopes_broken(const VectorXd& values) const {
        double sum = 0;
        for (const SlopeLimit& limit : problem_.slopes) {
            sum += std::max(0.0, std::abs(limit.slope(values)) - limit.max - rounding);
        }
        return sum;
    }

    // The worst; of equals, where the others miss by less.
    [[nodiscard]] double misses(const VectorXd& measures) const {
        constexpr double share_of_others = 0.01;
        double worst = 0;
        double sum = 0;
        for (std::size_t j = 0; j < problem_.windows.size(); ++j) {
            const double found = measures[static_cast<Index>(problem_.windows[j].number)];
            const auto at = static_cast<Index>(j);
            const double missed = std::max({0.0, model_.low[at] - found, found - model_.high[at]});
            worst = std::max(worst, missed);
            sum += missed;
        }
        return worst + share_of_others * sum;
    }

    [[nodiscard]] bool apart(const Step& step) const {
        return std::ranges::none_of(
            step.values, [&](Index value) { return moving_[static_cast<std::size_t>(value)]; });
    }

    void set(const Step& step, bool moving) {
        for (std::size_t m = 0; m < step.values.size(); ++m) {
            moving_[static_cast<std::size_t>(step.values[m])] = moving;
            values_[step.values[m]] = moving ? step.to[m] : from_[step.values[m]];
        }
    }

    // Tries the steps from `first` on beside those in `together_`, up to three at once.
    void try_steps(std::size_t first, const VectorXd& measures, double gained) {
        for (std::size_t s = first; s < steps_.size(); ++s) {
            const Step& one = steps_[s];
            if (!apart(one)) {
                continue;
            }
            set(one, true);
            together_.push_back(s);
            const VectorXd then = measures + one.measures;
            const double sum = gained + one.objective;
            const Merit merit{slopes_broken(values_), misses(then), sum};
            if (merit.better_than(best_)) {
                best_ = merit;
                chosen_ = together_;
            }
            if (together_.size() < deepest_) {
                try_steps(s + 1, then, sum);
            }
            together_.pop_back();
            set(one, false);
        }
    }

    // One move: of one value if that helps, else of two, else of three.
    bool improve() {
        find_steps();
        from_ = values_;
        moving_.assign(problem_.values.size(), false);
        const VectorXd measures = measures_at(problem_, model_, values_);
        constexpr std::size_t most_for_three = 60; // beyond, three at once would take seconds
        const std::size_t most = steps_.size() <= most_for_three ? 3 : 2;
        for (deepest_ = 1; deepest_ <= most; ++deepest_) {
            best_ = {slopes_broken(values_), misses(measures), 0};
            chosen_.clear();
            try_steps(0, measures, 0);
            for (const std::size_t s : chosen_) {
                for (std::size_t m = 0; m < steps_[s].values.size(); ++m) {
                    values_[steps_[s].values[m]] = steps_[s].to[m];
                }
            }
            if (!chosen_.empty()) {
                return true;
            }
        }
        return false;
    }

    const MatchProblem& problem_;
    const LocalModel& model_;
    VectorXd values_, from_;
    std::vector<bool> moving_; // values of the steps in together_
    std::vector<Step> steps_;
    std::vector<std::size_t> together_, chosen_;
    std::size_t deepest_ = 1;
    Merit best_;
};

} // namespace

VectorXd rounded_values(const MatchProblem& problem, const LocalModel& model,
                        const VectorXd& values) {
    return Search(problem, model, values).run();
}

bool has_rounding(const MatchProblem& problem) {
    return std::ranges::any_of(problem.values,
                               [](const MatchValue& value) { return value.round_to.has_value(); });
}

} // namespace vrid
