#include "io/session/board_solver.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "io/design/design_values.hpp"
#include "io/design/number_names.hpp"
#include "io/materials/design_paths.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/board_problems.hpp"
#include "io/read/read_board.hpp"
#include "io/read/read_edge_condition.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/design/session.hpp"
#include "solver/response/mass.hpp"

namespace vrid {

namespace {

double number_in(const std::string& text) {
    double value = std::nan("");
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

void check(const Settings& settings) {
    std::vector<Problem> problems;
    const auto hold = [&](bool good, const std::string& name, const std::string& accepted) {
        if (!good) {
            problems.push_back({"settings", name + ": accepted: " + accepted});
        }
    };
    hold(settings.degree >= 0 && settings.degree <= 6, "degree", "1 to 6, or 0 for the default");
    hold(settings.max_size == 0 || (settings.max_size >= 1e-3 && settings.max_size <= 1),
         "max_size", "0.001 to 1 m, or 0 for the default");
    hold(settings.threads >= 0 && settings.threads <= 1024, "threads",
         "1 to 1024, or 0 for one a core");
    hold(!settings.rel_error || (*settings.rel_error > 0 && *settings.rel_error < 1), "rel_error",
         "a share above 0 and below 1");
    throw_if_any(problems);
}

std::vector<NumberId> requests_of(const std::vector<std::string>& names, const Board& board) {
    std::vector<NumberId> requests;
    std::vector<Problem> problems;
    for (const std::string& name : names) {
        const NumberFound found = find_number(name, board);
        if (found.request) {
            requests.push_back(*found.request);
        } else {
            problems.push_back({"number", found.wrong});
        }
    }
    throw_if_any(problems);
    return requests;
}

std::string named(const std::string& unit) {
    return unit.empty() ? "1" : unit;
}

} // namespace

Board read_board(const std::string& path) {
    return read_board(path, load_material_library());
}

Shown shown(const Quantity& quantity) {
    const BenchQuantity bench = to_bench(quantity);
    const RoundedNumber text = rounded(bench.value, bench.error);
    return {number_in(text.value), text.error.empty() ? 0 : number_in(text.error), bench.unit};
}

Quantity Study::number(const std::string& name) const {
    std::vector<std::string> names;
    for (const NamedQuantity& one : numbers) {
        if (one.name == name) {
            return one.quantity;
        }
        names.push_back(one.name);
    }
    throw InputError("number", "found \"" + name + "\", which this board's cases do not give" +
                                   did_you_mean(name, names));
}

struct BoardSolver::Inside {
    Board start;
    std::vector<Change> changes; // each path once
    Session session;
};

BoardSolver::BoardSolver(Board board, Settings settings) {
    check(settings);
    check_made_board(board);
    Session session(board, std::move(settings));
    inside_ = std::make_unique<Inside>(Inside{std::move(board), {}, std::move(session)});
}

BoardSolver::BoardSolver(BoardSolver&&) noexcept = default;
BoardSolver& BoardSolver::operator=(BoardSolver&&) noexcept = default;
BoardSolver::~BoardSolver() = default;

const Board& BoardSolver::board() const {
    return inside_->session.board();
}

void BoardSolver::set(const std::string& path, double value) {
    std::vector<Change> changes = inside_->changes;
    std::erase_if(changes, [&](const Change& change) { return change.path == path; });
    changes.push_back({path, value, "set"});
    Board tried = inside_->start;
    apply_changes(tried, changes, {}); // throws what is wrong
    SetValues values;
    std::vector<double> numbers;
    for (const Change& change : changes) {
        if (const auto found = find_design(inside_->start, change.path)) { // else moves no number
            values.ids.push_back(found->id);
            numbers.push_back(to_si(found->id, std::get<double>(change.value)));
        }
    }
    values.values =
        Eigen::Map<Eigen::VectorXd>(numbers.data(), static_cast<Eigen::Index>(numbers.size()));
    inside_->session.set(std::move(values));
    inside_->changes = std::move(changes);
}

Study BoardSolver::study() {
    const StudyResult result = inside_->session.study();
    Study study{{{"mass", {board_mass(board()).mass, 0, Unit::mass}}},
                result.warnings,
                result.rel_error_met};
    for (const CaseResult& one : result.cases) {
        for (const NamedQuantity& number : one.numbers) {
            study.numbers.push_back(
                {number.name == "stiffness" ? one.name : one.name + " " + number.name,
                 number.quantity});
        }
    }
    return study;
}

std::vector<EdgeStand> BoardSolver::edge(const std::vector<EdgeCondition>& conditions) {
    std::vector<EdgeStand> stands;
    for (EdgeConditionResult& one : inside_->session.edge(conditions).conditions) {
        stands.push_back({std::move(one.no_equilibrium), std::move(one.numbers)});
    }
    return stands;
}

std::vector<Quantity> BoardSolver::numbers(const std::vector<std::string>& names,
                                           const std::optional<EdgeCondition>& condition) {
    const BoardNumbers found = inside_->session.numbers(
        requests_of(names, board()), {false, false, condition.value_or(default_edge_condition())});
    return each_of(found.numbers, &BoardNumber::quantity);
}

std::vector<Slope> BoardSolver::slopes(const std::string& number, const std::string& pattern,
                                       const std::optional<EdgeCondition>& condition) {
    const std::vector<NumberId> request = requests_of({number}, board());
    std::vector<std::string> paths;
    const std::vector<DesignValue> values = inside_->session.values();
    for (const DesignValue& value : values) {
        paths.push_back(path_of(value.id));
    }
    if (covered_paths(pattern, paths).empty()) {
        throw InputError("slopes", "found \"" + pattern + "\", no design value of this board" +
                                       did_you_mean(pattern, paths));
    }
    std::vector<LineValue> lines;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (values[i].kind().moves_lines && covers(pattern, paths[i])) {
            lines.push_back({values[i].id, {}});
        }
    }
    const BoardNumber found =
        inside_->session
            .numbers(request, {true, false, condition.value_or(default_edge_condition()), lines})
            .numbers.front();
    const BenchUnit unit = bench_unit(found.quantity.unit);
    std::vector<Slope> slopes;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (covers(pattern, paths[i])) {
            const std::string key = range_of(values[i].kind());
            slopes.push_back(
                {paths[i], found.slope(static_cast<Eigen::Index>(i)) * unit.per_si * to_si(key, 1),
                 named(unit.name) + " per " + named(std::string(file_unit(key).name)),
                 from_si(key, values[i].value)});
        }
    }
    return slopes;
}

} // namespace vrid
