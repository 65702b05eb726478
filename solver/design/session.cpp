#include "solver/design/session.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace vrid {

Session::Session(Board board, Settings settings, std::vector<std::string> cases)
    : start_(std::make_shared<const Board>(std::move(board))), board_(start_), drawn_(start_),
      settings_(std::move(settings)), cases_(std::move(cases)) {}

void Session::use(Settings settings) {
    if (settings.degree != settings_.degree || settings.max_size != settings_.max_size) {
        throw std::logic_error("a session keeps its degree and size");
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

const SharedPrepared& Session::prepared() {
    if (!prepared_) {
        settings_.tell("mesh", 0);
        prepared_ = prepare_study(*drawn_, {settings_, cases_, false, nullptr});
    }
    return prepared_;
}

const SharedPrepared& Session::edge_prepared() {
    if (!edge_prepared_) {
        settings_.tell("mesh", 0);
        edge_prepared_ = prepare_edge(*drawn_, {settings_});
    }
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

StudyResult Session::study() {
    if (board_ != drawn_) {
        prepared();
    }
    StudyResult result = run_study(*board_, {as_prepared(), cases_, false, prepared_});
    prepared_ = result.prepared;
    return result;
}

EdgeResult Session::edge(const std::vector<EdgeCondition>& conditions, bool motion) {
    if (board_ != drawn_) {
        edge_prepared();
    }
    EdgeOptions options{settings_};
    options.motion = motion;
    options.prepared = edge_prepared_;
    EdgeResult result = run_edge(*board_, conditions, options);
    edge_prepared_ = result.prepared;
    return result;
}

BoardNumbers Session::numbers(const std::vector<NumberId>& requests, const NumbersWanted& wanted) {
    const auto on_edge = [](const NumberId& one) { return one.kind == NumberId::Kind::edge; };
    const std::vector<std::string> wanted_cases = cases_of(requests);
    for (const std::string& name : wanted_cases) { // a mesh may have its lines and be too coarse
        if (!cases_.empty() && std::find(cases_.begin(), cases_.end(), name) == cases_.end()) {
            throw std::logic_error("the session's mesh was not made for the case " + name);
        }
    }
    if (!wanted_cases.empty() && settings_.rel_error && !prepared_) {
        study(); // refines
    } else if (!wanted_cases.empty()) {
        prepared();
    }
    if (std::any_of(requests.begin(), requests.end(), on_edge)) {
        edge_prepared();
    }
    const NumbersOptions options{as_prepared(), wanted.slopes, wanted.densities,
                                 wanted.edge,   prepared_,     edge_prepared_};
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
    other.drawn_ = board_;
    other.prepared_.reset();
    other.edge_prepared_.reset();
    return other;
}

} // namespace vrid
