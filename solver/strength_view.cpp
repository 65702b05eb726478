#include "solver/strength_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/cases/cases.hpp"
#include "solver/strength_residual.hpp"

namespace vrid {

namespace {

constexpr int columns = 80, rows = 10;

ViewGrid view_grid(const Planform& planform) {
    ViewGrid grid;
    grid.rows = rows;
    const auto [tail, nose] = x_extent(planform);
    constexpr double within = 1e-4; // of the length: the tips are points
    for (int i = 0; i <= columns; ++i) {
        const double share = std::clamp(i / double(columns), within, 1 - within);
        const double x = tail + share * (nose - tail);
        const auto sides = y_extent(planform, x).value_or(std::array<double, 2>{0, 0});
        grid.x.push_back(x);
        grid.right.push_back(sides[0]);
        grid.left.push_back(sides[1]);
    }
    return grid;
}

// Row and column of a point, which may lie on the outline.
std::pair<Index, Index> cell_of(const ViewGrid& grid, const Vector2d& p) {
    const auto beyond = std::upper_bound(grid.x.begin() + 1, grid.x.end() - 1, p.x());
    const auto column = static_cast<std::size_t>(beyond - grid.x.begin()) - 1;
    const double t =
        std::clamp((p.x() - grid.x[column]) / (grid.x[column + 1] - grid.x[column]), 0.0, 1.0);
    const double right = (1 - t) * grid.right[column] + t * grid.right[column + 1];
    const double left = (1 - t) * grid.left[column] + t * grid.left[column + 1];
    const double across = left > right ? (p.y() - right) / (left - right) : 0;
    const int row = std::clamp(static_cast<int>(across * grid.rows), 0, grid.rows - 1);
    return {row, static_cast<Index>(column)};
}

Vector2d middle_of(const ViewGrid& grid, Index row, Index column) {
    const auto i = static_cast<std::size_t>(column);
    const double right = (grid.right[i] + grid.right[i + 1]) / 2;
    const double left = (grid.left[i] + grid.left[i + 1]) / 2;
    return {(grid.x[i] + grid.x[i + 1]) / 2,
            right + (static_cast<double>(row) + 0.5) / grid.rows * (left - right)};
}

const CaseResult& answer_of(const StrengthResult& result, const std::string& name) {
    return *std::ranges::find(result.study.cases, name, &CaseResult::name);
}

std::size_t place_of(const StrengthResult& result, const std::string& name) {
    return static_cast<std::size_t>(&answer_of(result, name) - result.study.cases.data());
}

// A case as means of it are taken.
struct Seen {
    const CaseStrength* strength;
    const CaseResult* answer;
    StrainField strain;
    std::vector<char> held;
};

class View {
  public:
    View(const Board& board, const StrengthResult& result)
        : result_(result), layup_(make_layup<double>(board)), judged_(judged_layup(layup_)),
          sections_(layup_), maker_(result.study.mesh, sections_) {
        const SolvedModel& solved = *result.study.solved[1];
        for (const CaseStrength& one : result.cases) {
            if (one.skipped.empty()) {
                const std::size_t at = place_of(result, one.name);
                seen_.push_back(
                    {&one, &result.study.cases[at],
                     strain_field(solved.model, solved.motion[at].col(0)),
                     held_parts(solved.model, bench_of(one.name).loading(board, solved.model))
                         .quads});
            }
        }
        if (!result.cooled.empty()) {
            cooled_ = std::make_unique<CooledStress>(board, result.study, result.cooled, 1);
        }
        view_.grid = view_grid(board.planform);
        for (const Seen& one : seen_) {
            view_.cases.push_back(
                {one.strength->name, Eigen::MatrixXd::Constant(rows, columns, HUGE_VAL), {}});
        }
    }

    StrengthView run() {
        std::vector<char> met(static_cast<std::size_t>(rows * columns), 0);
        for (const Disc& disc : maker_.all()) {
            const auto [row, column] = cell_of(view_.grid, disc.centre);
            met[static_cast<std::size_t>(row * columns + column)] = 1;
            see(disc, row, column);
        }
        for (Index row = 0; row < rows; ++row) {
            for (Index column = 0; column < columns; ++column) {
                if (met[static_cast<std::size_t>(row * columns + column)] == 0) {
                    if (const auto disc = maker_.at(middle_of(view_.grid, row, column))) {
                        see(*disc, row, column);
                    }
                }
            }
        }
        for (std::size_t i = 0; i < seen_.size(); ++i) {
            finish(seen_[i], view_.cases[i]);
        }
        return std::move(view_);
    }

  private:
    PointResidual before(const StackKey& key, const Disc& disc, const PointLaminate& point) const {
        return cooled_ ? cooled_->at(key, disc, point) : PointResidual{};
    }

    void see(const Disc& disc, Index row, Index column) {
        const StackKey& key = sections_.stacks()[static_cast<std::size_t>(disc.stack)];
        const PointLaminate point = point_laminate(layup_, judged_, key, disc.centre);
        const PointResidual residual = before(key, disc, point);
        for (std::size_t i = 0; i < seen_.size(); ++i) {
            const auto strain = mean_strain(disc, seen_[i].strain, seen_[i].held);
            if (!strain) {
                continue;
            }
            double& least = view_.cases[i].load(row, column);
            for (const int sign : {1, -1}) {
                const PointLoad load{sign * strain->head<3>(), sign * strain->segment<3>(3),
                                     sign * (point.section.S * strain->tail<2>())};
                visit_failures(
                    point, load, residual, result_.criterion,
                    [&](const PointFailure& one) { least = std::min(least, one.factor); });
            }
        }
    }

    void finish(const Seen& seen, CaseView& view) {
        const double per_factor = load_per_factor(*seen.answer);
        view.load = view.load.unaryExpr([&](double least) {
            return std::isfinite(least) ? least * per_factor
                                        : std::numeric_limits<double>::quiet_NaN();
        });
        if (!seen.strength->first) {
            return;
        }
        const FailurePlace& first = *seen.strength->first;
        const auto strain = mean_strain(first.disc, seen.strain, seen.held);
        if (!strain) {
            return;
        }
        // the search walks to the least of a cell's places
        const auto [row, column] = cell_of(view_.grid, first.place.at);
        double& cell = view.load(row, column);
        cell = std::isnan(cell) ? first.load.value : std::min(cell, first.load.value);
        const PointLaminate point = point_laminate(layup_, judged_, first.key, first.disc.centre);
        const double by = first.place.sign * first.place.factor;
        view.through = ply_profiles(judged_, point,
                                    {by * strain->head<3>(), by * strain->segment<3>(3),
                                     by * (point.section.S * strain->tail<2>())},
                                    before(first.key, first.disc, point));
    }

    const StrengthResult& result_;
    Layup<double> layup_;
    JudgedLayup judged_;
    SectionCache sections_;
    DiscMaker maker_;
    std::vector<Seen> seen_;
    std::unique_ptr<CooledStress> cooled_;
    StrengthView view_;
};

// Residual stress at discs and at plotting points of a plot.
void add_residual(const CooledStress& cooled, const PlottedStrain& strain, const StressPlot& plot,
                  int n, StressState& state) {
    state.residual = [&cooled, &plot](const Disc& disc, const PointLaminate& point) {
        return cooled.at(plot.key(disc.stack), disc, point);
    };
    state.residual_at_point = [&cooled, &plot, &strain, n](Index c, int stack,
                                                           const Vector2d& place,
                                                           const PointLaminate& point) {
        const Index per_quad = Index(n) * n;
        return cooled.at_point(
            plot.key(stack), place, point,
            strain.at_points[static_cast<std::size_t>(c / per_quad)].col(c % per_quad));
    };
}

} // namespace

StrengthView strength_view(const Board& board, const StrengthResult& result) {
    return View(board, result).run();
}

double load_per_factor(const CaseResult& result) {
    const Quantity& stiffness = result.numbers.front().quantity;
    return stiffness.unit == Unit::twist_stiffness ? stiffness.value : 1;
}

SignedLoad plotted_load(const CaseStrength& strength, const CaseResult& result) {
    const double per_factor = load_per_factor(result);
    if (strength.at) {
        return {strength.at->sign * strength.at->load / per_factor, strength.at->load};
    }
    if (strength.first) {
        return {strength.first->place.sign * strength.first->place.factor,
                strength.first->load.value};
    }
    return {1, per_factor};
}

StrengthFields::StrengthFields(const Board& board, const StrengthResult& result, int n)
    : board_(board), result_(result), n_(n), layup_(make_layup<double>(board)),
      judged_(judged_layup(layup_)), plot_(layup_, judged_, result.study.mesh, n) {
    if (!result.cooled.empty()) {
        cooled_ = std::make_unique<CooledStress>(board, result.study, result.cooled, 1);
        cooled_strain_ = plotted_strain(result.study.mesh, result.study.numbering,
                                        result.study.rest.get(), cooled_->motion(), n);
    }
}

StrengthFields::~StrengthFields() = default;

StressFields StrengthFields::fields(std::size_t which) {
    const CaseStrength& one = result_.cases[which];
    const CaseResult& answer = answer_of(result_, one.name);
    const SolvedModel& solved = *result_.study.solved[1];
    const PlottedStrain strain =
        plotted_strain(result_.study.mesh, result_.study.numbering, result_.study.rest.get(),
                       solved.motion[place_of(result_, one.name)].col(0), n_);
    StressState state{
        strain, held_parts(solved.model, bench_of(one.name).loading(board_, solved.model)).quads,
        plotted_load(one, answer).factor};
    if (cooled_) {
        add_residual(*cooled_, cooled_strain_, plot_, n_, state);
    }
    StressFields found = plot_.fields(state, result_.criterion);
    found.lowest *= load_per_factor(answer);
    return found;
}

ResidualFields::ResidualFields(const Board& board, const StudyResult& study, int n)
    : board_(board), study_(study), n_(n), layup_(make_layup<double>(board)),
      judged_(judged_layup(layup_)), plot_(layup_, judged_, study.mesh, n) {}

StressFields ResidualFields::fields(const CaseResult& cooled) {
    const CooledStress stress(board_, study_, cooled);
    const PlottedStrain strain =
        plotted_strain(study_.mesh, study_.numbering, study_.rest.get(), stress.motion(), n_);
    StressState state{strain, {}, 0, {}};
    add_residual(stress, strain, plot_, n_, state);
    return plot_.fields(state, Criterion::tsai_hill);
}

} // namespace vrid
