#include "solver/design/session.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "mesh/board/lists.hpp"
#include "mesh/mesh_lines.hpp"
#include "solver/design/moved_mesh.hpp"
#include "solver/mesh_request.hpp"
#include "solver/selection.hpp"

namespace vrid {

Session::Session(Board board, Settings settings, std::vector<std::string> cases)
    : start_(std::make_shared<const Board>(std::move(board))), board_(start_), drawn_(start_),
      settings_(std::move(settings)), cases_(std::move(cases)) {}

void Session::use(Settings settings) {
    if (settings.degree != settings_.degree || settings.max_size != settings_.max_size ||
        settings.flat != settings_.flat) {
        throw std::logic_error("a session keeps its degree, size and shape");
    }
    settings_ = std::move(settings);
}

void Session::set(SetValues values) {
    board_ = values.ids.empty() ? start_ : std::move(design_board(*start_, values).board);
    set_ = std::move(values);
}

std::vector<DesignValue> Session::values() const {
    return design_board(*start_, set_).values;
}

// The mesh of the drawn board led to the lines of the board as it is; null where it gets bad, or
// where lines differ that no design value moves.
SharedPrepared Session::led(const SharedPrepared& prepared, bool on_edge) const {
    const std::vector<Board> path = boards_between(*drawn_, *board_);
    if (path.empty()) {
        return nullptr;
    }
    std::vector<const Board*> steps;
    for (const Board& board : path) {
        steps.push_back(&board);
    }
    const StationsOf of_cases = [this](const Board& board) {
        return case_stations(board, select_cases(board, cases_).run);
    };
    return led_mesh(prepared, steps, on_edge ? StationsOf(edge_stations) : of_cases);
}

void Session::draw_afresh() {
    drawn_ = board_;
    prepared_.reset();
    edge_prepared_.reset();
    led_.reset();
    edge_led_.reset();
}

const SharedPrepared* Session::there(const SharedPrepared& own, SharedPrepared& led_on, bool edge) {
    if (own && board_ != drawn_) {
        const std::vector<double> lines = mesh_lines(*board_);
        if (lines != own->lines) {
            if (!led_on || led_on->lines != lines) {
                led_on = led(own, edge);
            }
            if (led_on) {
                return &led_on;
            }
            draw_afresh();
        }
    }
    return own ? &own : nullptr;
}

const SharedPrepared& Session::prepared() {
    if (const SharedPrepared* mesh = there(prepared_, led_, false)) {
        return *mesh;
    }
    settings_.tell("mesh", 0);
    if (mesh_lines(*board_) != mesh_lines(*drawn_)) {
        drawn_ = board_; // nothing to lead along
    }
    prepared_ = prepare_study(*drawn_, {settings_, cases_, false, nullptr});
    return prepared_;
}

const SharedPrepared& Session::edge_prepared() {
    if (const SharedPrepared* mesh = there(edge_prepared_, edge_led_, true)) {
        return *mesh;
    }
    settings_.tell("mesh", 0);
    if (mesh_lines(*board_) != mesh_lines(*drawn_)) {
        draw_afresh();
    }
    edge_prepared_ = prepare_edge(*drawn_, {settings_});
    return edge_prepared_;
}

// What a refinement has reached stays: degree and size are those of the mesh then.
Settings Session::as_prepared() const {
    Settings settings = settings_;
    if (prepared_ && settings.rel_error) {
        settings.degree = 0;
        settings.max_size = 0;
        settings.rel_error.reset();
    }
    return settings;
}

StudyResult Session::study(const std::vector<double>& concavity) {
    const SharedPrepared mesh = board_ != drawn_ ? prepared() : prepared_;
    StudyResult result = run_study(*board_, {as_prepared(), cases_, false, mesh, concavity});
    if (board_ == drawn_ || !mesh) {
        prepared_ = result.prepared;
    }
    return result;
}

EdgeResult Session::edge(const std::vector<EdgeCondition>& conditions, bool motion) {
    EdgeOptions options{settings_};
    options.motion = motion;
    options.prepared = board_ != drawn_ ? edge_prepared() : edge_prepared_;
    EdgeResult result = run_edge(*board_, conditions, options);
    if (board_ == drawn_) {
        edge_prepared_ = result.prepared;
    }
    return result;
}

// The mesh stays while the lines do.
StrengthOptions Session::strength_options(std::vector<std::string> cases) {
    StrengthOptions options{as_prepared()};
    options.cases = std::move(cases);
    if (!strength_prepared_ || strength_cases_ != options.cases ||
        strength_prepared_->lines != mesh_lines(*board_)) {
        strength_prepared_ = prepare_strength(*board_, options);
        strength_cases_ = options.cases;
    }
    options.prepared = strength_prepared_;
    return options;
}

StrengthResult Session::strength() {
    return run_strength(*board_, strength_options(cases_));
}

BoardNumbers Session::numbers(const std::vector<NumberId>& requests, const NumbersWanted& wanted) {
    const auto on_edge = [](const NumberId& one) { return one.kind == NumberId::Kind::edge; };
    const std::vector<std::string> wanted_cases = cases_of(requests);
    for (const std::string& name : wanted_cases) { // a mesh may have its lines and be too coarse
        if (!cases_.empty() && !contains(cases_, name)) {
            throw std::logic_error("the session's mesh was not made for the case " + name);
        }
    }
    SharedPrepared mesh;
    SharedPrepared edge_mesh;
    if (!wanted_cases.empty() && settings_.rel_error && !prepared_) {
        study(); // refines
    }
    if (!wanted_cases.empty()) {
        mesh = prepared();
    }
    if (std::ranges::any_of(requests, on_edge)) {
        edge_mesh = edge_prepared();
        mesh = wanted_cases.empty() ? nullptr : prepared(); // that of the same lines
    }
    std::vector<std::string> strength_cases;
    for (const NumberId& request : requests) {
        const bool fresh = !contains(strength_cases, request.bench_case);
        if (request.kind == NumberId::Kind::strength && fresh) {
            strength_cases.push_back(request.bench_case);
        }
    }
    const SharedPrepared strength_mesh =
        strength_cases.empty() ? nullptr : strength_options(strength_cases).prepared;
    const NumbersOptions options{as_prepared(), wanted.slopes, wanted.densities, wanted.outline,
                                 wanted.edge,   true,          wanted.lines,     mesh,
                                 edge_mesh,     strength_mesh};
    return board_numbers(design_board(*start_, set_), requests, options);
}

Session Session::on_mesh(Board board) const {
    Session other = *this;
    other.start_ = other.board_ = std::make_shared<const Board>(std::move(board));
    other.set_ = {};
    return other;
}

Session Session::afresh() const {
    Session other = *this;
    other.draw_afresh();
    return other;
}

} // namespace vrid
