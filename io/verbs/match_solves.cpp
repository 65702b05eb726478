#include "io/verbs/match_solves.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "io/design/number_names.hpp"
#include "io/read/read_edge_condition.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/number_name.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

/// What the board has beside the goal's numbers; frequencies cost too much here.
std::vector<NumberId> others_of(const Board& board, const Goal& goal) {
    std::vector<NumberId> others = plain_requests(board);
    std::erase_if(others, [&](const NumberId& request) {
        return request.kind == NumberId::Kind::mode ||
               contains(goal.targets, request, &Target::number);
    });
    return others;
}

EdgeCondition edge_of(const Goal& goal) {
    return goal.edge.value_or(default_edge_condition());
}

NumbersWanted wanted_of(const MatchInput& input) {
    return {true, false, edge_of(input.goal)};
}

} // namespace

Solves::Solves(const MatchInput& input, const MatchProblem& problem, Console& console)
    : input_(input), problem_(problem), console_(console), progress_(progress_of(console)),
      others_(others_of(input.board, input.goal)), session_(input.board) {}

NumbersAt Solves::operator()(const Eigen::VectorXd& values, bool fresh) {
    std::vector<NumberId> requests = problem_.numbers;
    if (fresh) {
        requests.insert(requests.end(), others_.begin(), others_.end());
    }
    next_solve(session_);
    try {
        session_.set(problem_.set(values));
        hold_waist(session_.board(), input_.board);
    } catch (const InputError& error) { // a closed door: the search keeps away
        throw SolveError("match", error.what());
    }
    const bool moved = values != problem_.start();
    Session own = session_.afresh();
    NumbersWanted wanted = wanted_of(input_);
    wanted.lines = problem_.lines();
    BoardNumbers found = (fresh && moved ? own : session_).numbers(requests, wanted);
    wipe_progress(console_);
    warn(found.warnings);
    const std::size_t count = problem_.numbers.size();
    NumbersAt at;
    std::vector<Quantity> rest;
    for (std::size_t k = 0; k < found.numbers.size(); ++k) {
        (k < count ? at.numbers : rest).push_back(found.numbers[k].quantity);
    }
    found.numbers.resize(count);
    at.slopes = slopes_by(found, problem_.ids());
    if (fresh) {
        kept_.emplace_back(values, rest);
    }
    return at;
}

std::vector<NumberPair> Solves::others(const Eigen::VectorXd& values) const {
    const auto after =
        std::ranges::find_if(kept_, [&](const auto& one) { return one.first == values; });
    std::vector<NumberPair> pairs;
    for (std::size_t k = 0; k < others_.size(); ++k) {
        pairs.push_back({number_name(others_[k]), kept_.front().second[k], after->second[k]});
    }
    return pairs;
}

std::vector<double> Solves::wanted_numbers() {
    std::vector<double> wanted(input_.others.size(), 0);
    std::vector<std::string> done;
    for (std::size_t j = 0; j < wanted.size(); ++j) {
        const std::string& file = input_.goal.targets[j].same_as;
        if (!input_.others[j] || contains(done, file)) {
            continue;
        }
        done.push_back(file);
        // all cases, so that its mesh is that of a solve
        std::vector<NumberId> requests = others_of(*input_.others[j], {});
        const std::size_t plain = requests.size();
        std::vector<std::size_t> places;
        for (std::size_t i = j; i < wanted.size(); ++i) {
            if (input_.goal.targets[i].same_as == file) {
                requests.push_back(input_.goal.targets[i].number);
                places.push_back(i);
            }
        }
        Session other(*input_.others[j], {}, cases_of(requests));
        next_solve(other);
        NumbersWanted values = wanted_of(input_);
        values.slopes = false;
        const BoardNumbers found = other.numbers(requests, values);
        for (std::size_t k = 0; k < places.size(); ++k) {
            wanted[places[k]] = found.numbers[plain + k].quantity.value;
        }
    }
    return wanted;
}

void Solves::next_solve(Session& session) {
    Settings settings;
    settings.threads = input_.threads;
    settings.progress = [this, solve = ++solves_](const std::string& phase, double share) {
        constexpr double of_the_rest = 0.15; // how many solves it takes is not known
        const double done = 1 - std::pow(1 - of_the_rest, solve - 1 + std::min(share, 1.0));
        progress_("solve " + std::to_string(solve) + ": " + phase, done);
    };
    session.use(settings);
}

void Solves::warn(const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings) {
        if (!contains(warned_, warning)) {
            warned_.push_back(warning);
            console_.err << input_.board.file
                         << (input_.size.empty() ? "" : ", size " + input_.size)
                         << ": warning: " << warning << "\n";
        }
    }
}

Verdicts held_limits(const Board& answer, std::vector<NamedQuantity> known, const Goal& goal,
                     const Settings& settings) {
    const auto plain = plain_numbers(answer, outline_figures(answer), board_mass(answer));
    known.insert(known.end(), plain.begin(), plain.end());
    std::vector<NumberId> missing;
    for (const auto& [name, limit] : answer.limits) {
        const auto found = find_number(name, answer).request;
        if (found && !contains(known, name, &NamedQuantity::name)) {
            missing.push_back(*found);
        }
    }
    if (!missing.empty()) {
        Session session(answer, settings, cases_of(missing));
        const NumbersWanted wanted{false, false, edge_of(goal)};
        for (const BoardNumber& one : session.numbers(missing, wanted).numbers) {
            known.push_back({number_name(one.request), one.quantity});
        }
    }
    return judge(answer.limits, known);
}

} // namespace vrid
