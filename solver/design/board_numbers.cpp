#include "solver/design/board_numbers.hpp"

#include <algorithm>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/design/line_slopes.hpp"
#include "solver/design/mould_numbers.hpp"
#include "solver/design/owed_weights.hpp"
#include "solver/design/plain_numbers.hpp"
#include "solver/design/section_slopes.hpp"
#include "solver/design/strength_slopes.hpp"
#include "solver/design/study_weights.hpp"
#include "solver/response/mass.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

std::shared_ptr<const SectionWeights> shared(SectionWeights&& weights) {
    return std::make_shared<const SectionWeights>(std::move(weights));
}

class Computation {
  public:
    Computation(const DesignBoard& design, const std::vector<NumberId>& requests,
                const NumbersOptions& options)
        : design_(design), board_(*design.board), options_(options),
          threads_(options.thread_count()) {
        options_.lines = moving(options.lines);
        mould_lines_ = of_mould(options.lines);
        for (const NumberId& request : requests) {
            result_.numbers.push_back({request, {0, 0, unit_of(request)}, {}});
        }
    }

    BoardNumbers run() {
        add_mass();
        add_outline();
        add_stations();
        add_study();
        add_edge();
        add_strength();
        if (options_.slopes) {
            add_slopes();
            add_lines();
            clear_rounding(design_, result_);
        }
        return std::move(result_);
    }

  private:
    std::vector<std::size_t> requests_of(const std::function<bool(const NumberId&)>& which) {
        return numbers_where(result_, which);
    }

    [[nodiscard]] std::vector<NumberId> ids(const std::vector<std::size_t>& numbers) const {
        return each_of(numbers, [&](const std::size_t i) { return result_.numbers[i].request; });
    }

    Quantity& quantity(std::size_t request) { return result_.numbers[request].quantity; }

    void warn(const std::vector<std::string>& warnings) {
        result_.warnings.insert(result_.warnings.end(), warnings.begin(), warnings.end());
    }

    void add_mass() {
        const std::vector<std::size_t> wanted = requests_of([](const NumberId& r) {
            return r.kind == Kind::mass || r.kind == Kind::balance_x || r.kind == Kind::balance_y;
        });
        if (wanted.empty()) {
            return;
        }
        const MassReport mass = board_mass(board_);
        std::vector<Index> columns;
        for (const std::size_t i : wanted) {
            const Kind kind = result_.numbers[i].request.kind;
            const Index column = kind == Kind::mass ? 0 : kind == Kind::balance_x ? 1 : 2;
            if (column == 0) {
                quantity(i) = mass_quantity(mass);
            } else {
                quantity(i).value = column == 1 ? mass.x : mass.y;
            }
            columns.push_back(column);
        }
        if (options_.slopes) {
            owed_.add(shared(columns_of(mass_weights(board_), columns)), wanted);
        }
    }

    void add_outline() {
        for (BoardNumber& number : result_.numbers) {
            const Kind kind = number.request.kind;
            if (kind == Kind::sidecut_radius || kind == Kind::length || kind == Kind::area) {
                number.quantity = plain_number(board_, number.request);
            }
        }
    }

    void add_stations() {
        const std::vector<std::size_t> wanted = requests_of([](const NumberId& r) {
            return r.kind == Kind::EI || r.kind == Kind::GJ || r.kind == Kind::thickness;
        });
        const std::vector<NumberId> requests = ids(wanted);
        const std::vector<StationNumber> found = station_numbers(board_, requests, options_.slopes);
        for (std::size_t k = 0; k < wanted.size(); ++k) {
            quantity(wanted[k]).value = found[k].value;
            if (found[k].weights) {
                owed_.add(found[k].weights, {wanted[k]});
            }
        }
    }

    void add_study() {
        const std::vector<std::size_t> wanted = requests_of(in_study);
        if (wanted.empty()) {
            return;
        }
        const std::vector<NumberId> requests = ids(wanted);
        StudyOptions options{options_, cases_of(requests), options_.slopes, options_.prepared,
                             concavity_stations(requests)};
        options.bend = travels_of(requests);
        options.bent_weights = options_.slopes ? bent_numbers_of(requests) : options.bent_weights;
        study_ = run_study(board_, options);
        const StudyResult& study = study_;
        result_.prepared = study.prepared;
        warn(study.warnings);
        for (const std::size_t i : wanted) {
            const NumberId& request = result_.numbers[i].request;
            if (request.kind == Kind::bent) {
                const BentCase& bent = bent_case(study, request);
                quantity(i) = bent.numbers[bent_index(bent, request)].quantity;
                continue;
            }
            const CaseResult& bench = study.cases[case_index(study, request)];
            quantity(i) = bench.numbers[number_index(bench, request)].quantity;
            quantity(i).value = shape_value(board_, request, quantity(i).value);
        }
        if (options_.slopes) {
            add_stiff_weights(study);
            add_cooling_weights(study);
            add_bent_weights(study);
        }
    }

    void add_bent_weights(const StudyResult& study) {
        for (const std::size_t i :
             requests_of([](const NumberId& r) { return r.kind == Kind::bent; })) {
            const NumberId& request = result_.numbers[i].request;
            const BentCase& bent = bent_case(study, request);
            const auto column = static_cast<Index>(weighed_index(bent, request));
            const auto weights = shared(columns_of(*bent.weights, {column}));
            owed_.add(weights, {i});
            add_density(weights, study.prepared, {i});
        }
    }

    void add_stiff_weights(const StudyResult& study) {
        const std::vector<std::size_t> wanted = requests_of(
            [](const NumberId& r) { return r.kind == Kind::bench_case || r.kind == Kind::mode; });
        if (!wanted.empty()) {
            std::vector<BoardNumber> numbers =
                each_of(wanted, [&](const std::size_t i) { return result_.numbers[i]; });
            StudyWeights owed = study_weights(board_, study, numbers, threads_);
            warn(owed.warnings);
            const auto weights = shared(std::move(owed.weights));
            owed_.add(weights, wanted);
            add_density(weights, study.prepared, wanted);
            studied_.weights = weights;
            studied_.numbers = wanted;
        }
    }

    void add_cooling_weights(const StudyResult& study) {
        for (const char* const bench : {"release", "cold"}) {
            const std::vector<std::size_t> wanted = requests_of(
                [&](const NumberId& r) { return r.kind == Kind::shape && case_of(r) == bench; });
            if (wanted.empty()) {
                continue;
            }
            const std::vector<NumberId> numbers = ids(wanted);
            const auto weights =
                std::make_shared<SectionWeights>(cooling_weights(board_, study, numbers, threads_));
            owed_.add(weights, wanted);
            add_density(weights, study.prepared, wanted);
        }
    }

    void add_density(const std::shared_ptr<const SectionWeights>& weights,
                     const SharedPrepared& prepared, const std::vector<std::size_t>& wanted) {
        if (options_.densities) {
            const std::shared_ptr<const Mesh> mesh(prepared, &prepared->mesh);
            const MatrixXd density = core_densities(design_, *weights);
            for (CoreDensity& there : result_.densities) {
                if (there.mesh == mesh && there.degree == prepared->degree) {
                    const Index before = there.density.cols();
                    there.density.conservativeResize(Eigen::NoChange, before + density.cols());
                    there.density.rightCols(density.cols()) = density;
                    there.numbers.insert(there.numbers.end(), wanted.begin(), wanted.end());
                    return;
                }
            }
            result_.densities.push_back({mesh, prepared->degree, wanted, density});
        }
    }

    void add_edge() {
        const std::vector<std::size_t> wanted =
            requests_of([](const NumberId& r) { return r.kind == Kind::edge; });
        if (wanted.empty()) {
            return;
        }
        EdgeOptions edge{options_};
        edge.weights = options_.slopes;
        edge.adjoint = options_.slopes && !options_.lines.empty() && !options_.edge.bent;
        edge.bars = options_.edge_bars;
        edge.prepared = options_.edge_prepared;
        const EdgeResult found = run_edge(board_, {options_.edge}, edge);
        warn(found.warnings);
        result_.edge_prepared = found.prepared;
        const EdgeConditionResult& one = found.conditions.front();
        if (!one.no_equilibrium.empty()) {
            throw SolveError("edge", one.no_equilibrium);
        }
        std::vector<Index> columns;
        for (const std::size_t i : wanted) {
            const std::string& name = result_.numbers[i].request.edge_number;
            const auto number = std::ranges::find(one.numbers, name, &NamedQuantity::name);
            quantity(i) = number->quantity;
            columns.push_back(number - one.numbers.begin());
        }
        if (options_.slopes) {
            const auto own = shared(columns_of(*one.weights, columns));
            owed_.add(own, wanted);
            add_density(own, found.prepared, wanted);
            studied_.edge = {one.adjoint, own, {columns.begin(), columns.end()}};
        }
    }

    void add_strength() {
        const std::vector<std::size_t> wanted =
            requests_of([](const NumberId& r) { return r.kind == Kind::strength; });
        if (wanted.empty()) {
            return;
        }
        const std::vector<NumberId> requests = ids(wanted);
        strength_ = found_strength(design_, requests, options_);
        strength_numbers_ = wanted;
        for (std::size_t k = 0; k < wanted.size(); ++k) {
            quantity(wanted[k]) = strength_.values[k];
        }
        result_.strength_prepared = strength_.prepared;
        warn(strength_.warnings);
        if (strength_.weights) {
            owed_.add(strength_.weights, wanted);
        }
    }

    void add_slopes() {
        for (const DesignValue& value : design_.values) {
            result_.values.push_back(value.id);
        }
        const std::vector<const SectionWeights*> sets =
            each_of(owed_.sets, [](const auto& set) { return set.get(); });
        const MatrixXd slopes = design_slopes(design_, sets, threads_);
        for (std::size_t i = 0; i < owed_.request.size(); ++i) {
            result_.numbers[owed_.request[i]].slope = slopes.row(static_cast<Index>(i));
        }
        for (std::size_t k = 0; k < strength_numbers_.size(); ++k) {
            result_.numbers[strength_numbers_[k]].slope +=
                strength_.direct.row(static_cast<Index>(k)).transpose();
        }
        for (BoardNumber& number : result_.numbers) {
            if (number.request.kind == Kind::thickness) {
                number.slope = thickness_slopes(design_, number.request.station);
            }
            if (number.slope.size() == 0) { // of the outline alone
                number.slope = Eigen::VectorXd::Zero(static_cast<Index>(design_.values.size()));
            }
        }
    }

    void set_lines(std::size_t number, const Eigen::RowVectorXd& slopes) {
        for (std::size_t i = 0; i < options_.lines.size(); ++i) {
            const auto at = std::ranges::find(result_.values, options_.lines[i].id);
            result_.numbers[number].slope(at - result_.values.begin()) =
                slopes(static_cast<Index>(i));
        }
    }

    void add_lines() {
        if (!options_.lines.empty()) {
            for (std::size_t k = 0; k < strength_numbers_.size(); ++k) {
                set_lines(strength_numbers_[k], strength_.by_lines.row(static_cast<Index>(k)));
            }
            add_line_slopes(design_, options_, studied_, result_);
        }
        add_mould_slopes(board_, mould_lines_, result_);
        if (options_.outline && studied_.weights) {
            add_outline_density(design_, studied_, threads_, result_);
        }
    }

    const DesignBoard& design_;
    const Board& board_;
    NumbersOptions options_;
    std::vector<LineValue> mould_lines_; // of the options' lines
    int threads_;
    BoardNumbers result_;
    OwedWeights owed_;
    FoundStrength strength_;
    std::vector<std::size_t> strength_numbers_;
    StudyResult study_;
    StudiedNumbers studied_{&study_, nullptr, {}, {}};
};

} // namespace

BoardNumbers board_numbers(const DesignBoard& design, const std::vector<NumberId>& requests,
                           const NumbersOptions& options) {
    return Computation(design, requests, options).run();
}

BoardNumbers board_numbers(const Board& board, const std::vector<NumberId>& requests,
                           const NumbersOptions& options) {
    return board_numbers(design_board(board), requests, options);
}

} // namespace vrid
