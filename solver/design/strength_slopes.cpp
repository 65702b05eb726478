#include "solver/design/strength_slopes.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/design/shape_change.hpp"
#include "solver/prepared.hpp"

namespace vrid {

namespace {

using Strain = Eigen::Matrix<double, 8, 1>;

const CaseStrength* case_strength(const StrengthResult& result, const std::string& name) {
    const auto found = std::ranges::find(result.cases, name, &CaseStrength::name);
    return found == result.cases.end() ? nullptr : &*found;
}

// The least load factor at a place, by the layer, mode and direction of a known failure, and the
// diameter of the disc that the laminate there asks for.
struct AtPlace {
    double factor = HUGE_VAL;
    double diameter = 0;
};
AtPlace factor_at(const Layup<double>& layup, const FailurePlace& place, const Strain& mean,
                  Criterion criterion) {
    const JudgedLayup judged = judged_layup(layup);
    const PointLaminate point = point_laminate(layup, judged, place.key, place.place.at);
    const double sign = place.place.sign;
    const PointLoad load{sign * mean.head<3>(), sign * mean.segment<3>(3),
                         sign * (point.section.S * mean.tail<2>())};
    AtPlace least;
    least.diameter = std::max(least_diameter, point.section.thickness);
    visit_failures(point, load, {}, criterion, [&](const PointFailure& failure) {
        const JudgedPly& ply = *point.plies[failure.ply];
        if (ply.layer == place.place.layer && ply.number == place.place.ply &&
            failure.mode == place.place.mode) {
            least.factor = std::min(least.factor, failure.factor);
        }
    });
    return least;
}

// One failure with the motion it is of.
class ActivePlace {
  public:
    ActivePlace(const Board& board, const StrengthResult& result, const NumberId& request)
        : board_(board), place_(*failure_of(result, request)), criterion_(result.criterion),
          bench_(bench_of(request.bench_case)), model_(result.study.solved[1]->model) {
        const auto at =
            std::ranges::find(result.study.cases, request.bench_case, &CaseResult::name);
        const auto index = static_cast<std::size_t>(at - result.study.cases.begin());
        motion_ = result.study.solved[1]->motion[index].col(0);
        stiffness_ = at->numbers.front().quantity;
        loading_ = bench_.loading(board, model_);
        held_ = held_parts(model_, loading_);
        const StrainField strain = strain_field(model_, motion_);
        mean_ = *mean_strain(place_.disc, strain, held_.quads);
        const Layup<double> layup = make_layup<double>(board);
        std::array<double, 2> beside{};
        for (const std::size_t i : {0, 1}) {
            const auto mean = mean_strain(place_.beside[i], strain, held_.quads);
            beside[i] = factor_at(layup, place_, mean.value_or(mean_), criterion_).factor;
        }
        by_size_ = (beside[1] - beside[0]) / (2 * beside_disc * place_.disc.diameter);
    }

    // The adjoint's loading: K l = W^T L_m on the case's supports.
    [[nodiscard]] Loading adjoint() const {
        Loading loading = loading_;
        loading.motion.setZero();
        loading.force = mean_strain_load(model_, place_.disc, held_.quads, by_strain());
        clear_fixed(loading.fixed, loading.force);
        return loading;
    }

    // L_p at fixed strain, that of the disc growing with the laminate, one a design value.
    [[nodiscard]] VectorXd by_laminate(const DesignBoard& design) const {
        VectorXd slopes(static_cast<Index>(design.values.size()));
        for (std::size_t i = 0; i < design.values.size(); ++i) {
            const DesignValue& value = design.values[i];
            constexpr double share = 1e-5;
            const double step = share * (value.value != 0 ? std::abs(value.value) : 1);
            std::array<AtPlace, 2> there;
            for (const int side : {0, 1}) {
                for (const Follower& follower : value.followers) {
                    *follower.place += (side == 0 ? -step : step) * follower.slope;
                }
                there[static_cast<std::size_t>(side)] =
                    factor_at(make_layup<double>(*design.board), place_, mean_, criterion_);
                for (const Follower& follower : value.followers) {
                    *follower.place -= (side == 0 ? -step : step) * follower.slope;
                }
            }
            slopes(static_cast<Index>(i)) = (there[1].factor - there[0].factor +
                                             by_size_ * (there[1].diameter - there[0].diameter)) /
                                            (2 * step);
        }
        return slopes;
    }

    [[nodiscard]] const VectorXd& motion() const { return motion_; }
    [[nodiscard]] double factor() const { return place_.place.factor; }
    [[nodiscard]] double stiffness() const { return stiffness_.value; }
    [[nodiscard]] bool twist() const { return stiffness_.unit == Unit::twist_stiffness; }

  private:
    [[nodiscard]] Strain by_strain() const {
        const Layup<double> layup = make_layup<double>(board_);
        const double height = place_.disc.diameter;
        const double curvature =
            std::max({mean_.segment<3>(3).norm(), mean_.head<3>().norm() / height,
                      mean_.tail<2>().norm() / height});
        Strain slope;
        for (Index k = 0; k < 8; ++k) {
            constexpr double share = 1e-5;
            const double step = share * curvature * (k >= 3 && k < 6 ? 1 : height);
            Strain below = mean_;
            Strain above = mean_;
            below(k) -= step;
            above(k) += step;
            slope(k) = (factor_at(layup, place_, above, criterion_).factor -
                        factor_at(layup, place_, below, criterion_).factor) /
                       (2 * step);
        }
        return slope;
    }

    const Board& board_;
    const FailurePlace& place_;
    Criterion criterion_;
    const BenchCase& bench_;
    const PlateModel& model_;
    VectorXd motion_;
    Quantity stiffness_;
    Loading loading_;
    HeldParts held_;
    Strain mean_;
    double by_size_ = 0; ///< of the disc
};

// dN = a dL + b u^T dK u of a number N: the motion is at a unit turn, where N = L k or L, or at a
// unit force, where N = L or L / k and dk = k^2 u^T dK u.
std::pair<double, double> parts(const ActivePlace& place, const NumberId& request) {
    const bool travel = request.strength_number == "travel";
    if (place.twist()) {
        return travel ? std::pair(1.0, 0.0) : std::pair(place.stiffness(), place.factor());
    }
    return travel ? std::pair(1 / place.stiffness(), -place.factor()) : std::pair(1.0, 0.0);
}

Quantity quantity_of(const StrengthResult& result, const NumberId& request) {
    const FailurePlace* const place = failure_of(result, request);
    if (place == nullptr) {
        throw SolveError("strength", "no layer of the board that " + request.bench_case +
                                         " loads has strengths to be judged by");
    }
    return request.strength_number == "travel" ? place->travel : place->load;
}

StrengthOptions options_for(const std::vector<NumberId>& wanted, const Settings& settings) {
    StrengthOptions options{settings};
    for (const NumberId& request : wanted) {
        add_once(options.cases, request.bench_case);
    }
    return options;
}

VectorXd values_of(const Board& board, const std::vector<NumberId>& wanted,
                   const StrengthOptions& options) {
    const StrengthResult result = run_strength(board, options);
    VectorXd values(static_cast<Index>(wanted.size()));
    for (std::size_t k = 0; k < wanted.size(); ++k) {
        values(static_cast<Index>(k)) = quantity_of(result, wanted[k]).value;
    }
    return values;
}

MatrixXd line_slopes(const Board& board, const std::vector<NumberId>& wanted,
                     const std::vector<LineValue>& lines, const Settings& settings) {
    const StrengthOptions options = options_for(wanted, settings);
    MatrixXd slopes(static_cast<Index>(wanted.size()), static_cast<Index>(lines.size()));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        constexpr double share = 0.01, least = 5e-4;
        const double value = line_value(board, lines[i].id);
        const ShapeChange change =
            shape_change(board, lines[i], std::max(share * std::abs(value), least));
        slopes.col(static_cast<Index>(i)) = (values_of(*change.above, wanted, options) -
                                             values_of(*change.below, wanted, options)) /
                                            change.width;
    }
    return slopes;
}

} // namespace

FoundStrength found_strength(const DesignBoard& design, const std::vector<NumberId>& wanted,
                             const NumbersOptions& options) {
    StrengthOptions own = options_for(wanted, options);
    own.prepared = options.strength_prepared;
    const StrengthResult result = run_strength(*design.board, own);
    FoundStrength found;
    found.warnings = result.warnings;
    found.prepared = result.study.prepared;
    for (const NumberId& request : wanted) {
        found.values.push_back(quantity_of(result, request));
    }
    if (options.slopes) {
        StrengthSlopes slopes = strength_slopes(design, result, wanted, options.thread_count());
        found.weights = std::make_shared<SectionWeights>(std::move(slopes.weights));
        found.direct = std::move(slopes.direct);
        found.warnings.insert(found.warnings.end(), slopes.warnings.begin(), slopes.warnings.end());
        found.by_lines = line_slopes(*design.board, wanted, options.lines, options);
    }
    return found;
}

const FailurePlace* failure_of(const StrengthResult& result, const NumberId& request) {
    const CaseStrength* const one = case_strength(result, request.bench_case);
    if (one == nullptr) {
        return nullptr;
    }
    const auto& place = request.strength_number == "breaks" ? one->breaks : one->first;
    return place ? &*place : nullptr;
}

StrengthSlopes strength_slopes(const DesignBoard& design, const StrengthResult& result,
                               const std::vector<NumberId>& wanted, int threads) {
    const Board& board = *design.board;
    const PlateModel& model = result.study.solved[1]->model;
    const auto count = static_cast<Index>(wanted.size());
    StrengthSlopes slopes;
    slopes.direct.resize(count, static_cast<Index>(design.values.size()));
    std::vector<ActivePlace> places;
    std::vector<Loading> loadings;
    for (const NumberId& request : wanted) {
        places.emplace_back(board, result, request);
        loadings.push_back(places.back().adjoint());
        if (case_strength(result, request.bench_case)->kink && request.strength_number == "first") {
            slopes.warnings.push_back(
                "strength." + request.bench_case +
                ": another place is within 3 % of the first, so that the number has a kink near "
                "here; its derivatives are those of the first place");
        }
    }
    Seconds seconds;
    const std::vector<CaseSolution> adjoints =
        solve_loadings(model, loadings, result.study.prepared->trees[1], threads, seconds);
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    slopes.weights = model_places(model, sections, count);
    std::vector<EnergyTerm> energy;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const auto [by_factor, by_energy] = parts(places[i], wanted[i]);
        const auto column = static_cast<Index>(i);
        energy.push_back({adjoints[i].u, places[i].motion(), -by_factor, column});
        energy.push_back({places[i].motion(), {}, by_energy, column});
        slopes.direct.row(column) = by_factor * places[i].by_laminate(design).transpose();
    }
    add_energy(model, energy, threads, slopes.weights);
    return slopes;
}

} // namespace vrid
