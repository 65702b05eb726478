#include "solver/design/best_values.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <nlopt.h>

namespace vrid {

namespace {

using Eigen::Map;

constexpr double met = 1e-4;            // a miss that is none [percent]
constexpr double little = 1e-4;         // a gain that is none
constexpr double slope_rounding = 1e-6; // by which limits are drawn in here [m per m]
constexpr double slope_unit = 100;      // a slope exceeded by 0.01 counts as one percent missed

// One small problem for the optimiser. Unknowns: every value's way from the start in workshop
// steps, then the miss that all targets stay below.
class SmallProblem {
  public:
    enum class Keep { miss, objective, change };
    SmallProblem(const MatchProblem& problem, const LocalModel& model, const ValueBox& box)
        : problem_(problem), model_(model), box_(box),
          count_(static_cast<Index>(problem.values.size())) {}

    /// Least miss, then least objective at that miss, from these values.
    BestValues solve(const VectorXd& start) {
        const BestValues first = judged(start);
        const BestValues near = first.miss > met ? in_turns(Keep::miss, first) : first;
        return in_turns(Keep::objective, near);
    }

    VectorXd nearest_within_slopes(const VectorXd& values, double& broken) {
        elastic_slopes_ = true;
        from_ = values;
        BestValues start{values, slopes_broken(values), 0};
        VectorXd found = values;
        if (start.miss > 0) {
            found = run(Keep::miss, start, (start.miss + slope_rounding) * slope_unit);
            start = {found, slopes_broken(found), 0};
            const VectorXd nearer =
                run(Keep::change, start, std::max(0.0, start.miss) * slope_unit);
            found = slopes_broken(nearer) <= std::max(0.0, start.miss) ? nearer : found;
        }
        broken = slopes_broken(found);
        return found;
    }

    [[nodiscard]] double slopes_broken(const VectorXd& values) const {
        double worst = 0;
        for (const SlopeLimit& limit : problem_.slopes) {
            worst = std::max(worst, std::abs(limit.slope(values)) - limit.max);
        }
        return worst;
    }

  private:
    [[nodiscard]] BestValues judged(const VectorXd& values) const {
        const double missed = worst_miss(problem_, model_, measures_at(problem_, model_, values));
        return {values, missed, objective(problem_, model_, values)};
    }

    /// The optimiser may stop short where many limits meet: it begins again from inside the box.
    BestValues in_turns(Keep keep, BestValues best) {
        const double allowed = best.miss;
        constexpr std::array<double, 3> inside{0, 0.02, 0.2};
        for (const double share : inside) {
            BestValues start = best;
            start.values += share * (0.5 * (box_.low + box_.high) - best.values);
            if (slopes_broken(start.values) > 0) {
                continue;
            }
            const BestValues found =
                judged(run(keep, start, keep == Keep::miss ? judged(start.values).miss : allowed));
            const double gained = keep == Keep::miss           ? best.miss - found.miss
                                  : found.miss < allowed + met ? best.objective - found.objective
                                                               : 0;
            best = gained > 0 ? found : best;
            if (gained > little && share > 0) {
                break;
            }
            if (keep == Keep::miss && best.miss < met) {
                break;
            }
        }
        return best;
    }

    [[nodiscard]] VectorXd values_of(const double* x) const {
        VectorXd values(count_);
        for (Index i = 0; i < count_; ++i) {
            const MatchValue& value = problem_.values[static_cast<std::size_t>(i)];
            values[i] = std::clamp(value.start + x[i] * value.step, box_.low[i], box_.high[i]);
        }
        return values;
    }

    [[nodiscard]] double step(Index i) const {
        return problem_.values[static_cast<std::size_t>(i)].step;
    }

    double wanted(const double* x, double* slope) const {
        if (slope != nullptr) {
            std::fill(slope, slope + count_ + 1, 0.0);
        }
        if (keep_ == Keep::miss) {
            if (slope != nullptr) {
                slope[count_] = 1;
            }
            return x[count_];
        }
        const VectorXd values = values_of(x);
        double sum = 0;
        for (Index i = 0; i < count_; ++i) {
            const bool near = keep_ == Keep::change;
            const double origin =
                near ? from_[i] : problem_.values[static_cast<std::size_t>(i)].start;
            const double way = (values[i] - origin) / step(i);
            if (near || problem_.least == Least::change) {
                sum += way * way;
                if (slope != nullptr) {
                    slope[i] = 2 * way;
                }
            } else if (slope != nullptr) {
                slope[i] = step(i) * addition_slope(problem_, model_, problem_.mass,
                                                    static_cast<std::size_t>(i), values[i]);
            }
        }
        return keep_ == Keep::change ? sum : objective(problem_, model_, values);
    }

    // Rows: low and high end of every window, up and down of every slope; each to be below 0.
    void limits(const double* x, double* result, double* slopes) const {
        const VectorXd values = values_of(x);
        const Index columns = count_ + 1;
        Index row = 0;
        if (slopes != nullptr) {
            std::fill(slopes, slopes + rows() * columns, 0.0);
        }
        if (!elastic_slopes_) {
            const VectorXd measures = measures_at(problem_, model_, values);
            for (std::size_t j = 0; j < problem_.windows.size(); ++j) {
                for (const double sign : {-1.0, 1.0}) {
                    const auto at = static_cast<Index>(j);
                    const std::size_t number = problem_.windows[j].number;
                    result[row] = sign * measures[static_cast<Index>(number)] -
                                  sign * (sign > 0 ? model_.high[at] : model_.low[at]) - x[count_];
                    result[row] = std::max(result[row], -far_inside);
                    if (slopes != nullptr) {
                        add_window_slopes(values, number, sign, slopes + row * columns);
                    }
                    ++row;
                }
            }
        }
        for (const SlopeLimit& limit : problem_.slopes) {
            for (const double sign : {-1.0, 1.0}) {
                result[row] =
                    slope_unit * (sign * limit.slope(values) - limit.max + slope_rounding) -
                    (elastic_slopes_ ? x[count_] : 0);
                if (slopes != nullptr) {
                    add_slope_slopes(limit, sign, slopes + row * columns);
                }
                ++row;
            }
        }
    }

    void add_window_slopes(const VectorXd& values, std::size_t number, double sign,
                           double* slope) const {
        for (Index i = 0; i < count_; ++i) {
            slope[i] =
                sign * step(i) *
                addition_slope(problem_, model_, number, static_cast<std::size_t>(i), values[i]);
        }
        slope[count_] = -1;
    }

    void add_slope_slopes(const SlopeLimit& limit, double sign, double* slope) const {
        const double per = slope_unit * sign / (limit.x_right - limit.x_left);
        if (limit.left) {
            slope[*limit.left] = -per * step(static_cast<Index>(*limit.left));
        }
        if (limit.right) {
            slope[*limit.right] = per * step(static_cast<Index>(*limit.right));
        }
        slope[count_] = elastic_slopes_ ? -1 : 0;
    }

    [[nodiscard]] Index rows() const {
        const auto windows = static_cast<Index>(problem_.windows.size());
        return 2 * ((elastic_slopes_ ? 0 : windows) + static_cast<Index>(problem_.slopes.size()));
    }

    // Unknowns with their bounds.
    struct Unknowns {
        std::vector<double> low, high, at;
    };

    [[nodiscard]] Unknowns unknowns(Keep keep, const VectorXd& start, double most) const {
        Unknowns all;
        for (Index i = 0; i < count_; ++i) {
            const double origin = problem_.values[static_cast<std::size_t>(i)].start;
            all.low.push_back((box_.low[i] - origin) / step(i));
            all.high.push_back((box_.high[i] - origin) / step(i));
            all.at.push_back(
                std::clamp((start[i] - origin) / step(i), all.low.back(), all.high.back()));
        }
        all.low.push_back(keep == Keep::miss ? 0 : most);
        all.high.push_back(keep == Keep::miss ? most + 1 : most); // room to turn in
        all.at.push_back(most);
        return all;
    }

    /// With the miss held at `most` unless it is what is kept small.
    VectorXd run(Keep keep, const BestValues& start, double most) {
        keep_ = keep;
        Unknowns x = unknowns(keep, start.values, most);
        nlopt_opt optimiser = nlopt_create(NLOPT_LD_SLSQP, static_cast<unsigned>(x.at.size()));
        nlopt_set_lower_bounds(optimiser, x.low.data());
        nlopt_set_upper_bounds(optimiser, x.high.data());
        nlopt_set_min_objective(
            optimiser,
            [](unsigned, const double* at, double* slope, void* self) {
                return static_cast<SmallProblem*>(self)->wanted(at, slope);
            },
            this);
        const std::vector<double> slack(static_cast<std::size_t>(rows()), 0.1 * met);
        nlopt_add_inequality_mconstraint(
            optimiser, static_cast<unsigned>(rows()),
            [](unsigned, double* result, unsigned, const double* at, double* slope, void* self) {
                static_cast<SmallProblem*>(self)->limits(at, result, slope);
            },
            this, slack.data());
        constexpr int most_steps = 200;
        nlopt_set_xtol_rel(optimiser, 1e-7); // no ftol: the miss may stand still for a step
        nlopt_set_maxeval(optimiser, most_steps);
        double least = 0;
        nlopt_optimize(optimiser, x.at.data(), &least); // whatever it says: the answer is judged
        nlopt_destroy(optimiser);
        const VectorXd found = values_of(x.at.data());
        const bool kept = elastic_slopes_ || slopes_broken(found) <= 0;
        return found.allFinite() && kept ? found : start.values;
    }

    static constexpr double far_inside = 1e4; // an open end is no steep wall
    const MatchProblem& problem_;
    const LocalModel& model_;
    const ValueBox& box_;
    Index count_;
    Keep keep_ = Keep::miss;
    bool elastic_slopes_ = false;
    VectorXd from_;
};

} // namespace

BestValues best_values(const MatchProblem& problem, const LocalModel& model, const ValueBox& box,
                       const std::vector<VectorXd>& starts) {
    SmallProblem small(problem, model, box);
    std::optional<BestValues> best;
    for (const VectorXd& start : starts) {
        const BestValues found = small.solve(within_slopes(problem, start, box).values);
        const bool nearer = best && found.miss < best->miss - met;
        const bool as_near = best && found.miss < best->miss + met;
        if (!best || nearer || (as_near && found.objective < best->objective)) {
            best = found;
        }
    }
    return *best;
}

WithinSlopes within_slopes(const MatchProblem& problem, const VectorXd& values,
                           const ValueBox& box) {
    const LocalModel none;
    SmallProblem small(problem, none, box);
    WithinSlopes found;
    found.values =
        small.nearest_within_slopes(values.cwiseMax(box.low).cwiseMin(box.high), found.broken);
    return found;
}

} // namespace vrid
