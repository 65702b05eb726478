#include "io/verbs/match_solves.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "io/verbs/progress.hpp"
#include "solver/design/free_board.hpp"

namespace vrid {
namespace {

/// What the board has beside the goal's numbers; frequencies cost too much here.
std::vector<NumberRequest> others_of(const Board& board, const Goal& goal) {
    std::vector<NumberRequest> others = plain_requests(board);
    std::erase_if(others, [&](const NumberRequest& request) {
        return request.kind == NumberRequest::Kind::mode ||
               std::any_of(goal.targets.begin(), goal.targets.end(), [&](const Target& target) {
                   return same_number(target.number, request);
               });
    });
    return others;
}

} // namespace

Solves::Solves(const MatchInput& input, const MatchProblem& problem, Console& console)
    : input_(input), problem_(problem), console_(console),
      others_(others_of(input.board, input.goal)) {}

NumbersAt Solves::operator()(const Eigen::VectorXd& values, bool fresh) {
    std::vector<NumberRequest> requests = problem_.numbers;
    if (fresh) {
        requests.insert(requests.end(), others_.begin(), others_.end());
    }
    NumbersOptions options = this->options();
    if (!fresh && first_mesh_) {
        options.edge_mesh = edge_mesh_;
        options.prepared = prepared();
    }
    const Board board = board_at(input_.board, problem_.paths(), values);
    BoardNumbers found = board_numbers(board, requests, options);
    wipe_progress(console_);
    warn(found.warnings);
    if (!first_mesh_) {
        first_mesh_ = true;
        edge_mesh_ = found.edge_mesh;
    }
    const std::size_t count = problem_.numbers.size();
    NumbersAt at;
    std::vector<Quantity> rest;
    for (std::size_t k = 0; k < found.numbers.size(); ++k) {
        (k < count ? at.numbers : rest).push_back(found.numbers[k].quantity);
    }
    found.numbers.resize(count);
    at.slopes = free_slopes(input_.board, problem_.paths(), values, found);
    if (fresh) {
        kept_.emplace_back(values, rest);
    }
    return at;
}

std::vector<NumberPair> Solves::others(const Eigen::VectorXd& values) const {
    const auto after = std::find_if(kept_.begin(), kept_.end(),
                                    [&](const auto& one) { return one.first == values; });
    std::vector<NumberPair> pairs;
    for (std::size_t k = 0; k < others_.size(); ++k) {
        pairs.push_back({others_[k].name, kept_.front().second[k], after->second[k]});
    }
    return pairs;
}

std::vector<double> Solves::wanted_numbers() {
    std::vector<double> wanted(input_.others.size(), 0);
    std::vector<std::string> done;
    for (std::size_t j = 0; j < wanted.size(); ++j) {
        const std::string& file = input_.goal.targets[j].same_as;
        if (!input_.others[j] || std::find(done.begin(), done.end(), file) != done.end()) {
            continue;
        }
        done.push_back(file);
        // all cases, so that its mesh is that of a solve
        std::vector<NumberRequest> requests = others_of(*input_.others[j], {});
        const std::size_t plain = requests.size();
        std::vector<std::size_t> places;
        for (std::size_t i = j; i < wanted.size(); ++i) {
            if (input_.goal.targets[i].same_as == file) {
                requests.push_back(input_.goal.targets[i].number);
                places.push_back(i);
            }
        }
        NumbersOptions options = this->options();
        options.slopes = false;
        const BoardNumbers found = board_numbers(*input_.others[j], requests, options);
        for (std::size_t k = 0; k < places.size(); ++k) {
            wanted[places[k]] = found.numbers[plain + k].quantity.value;
        }
    }
    return wanted;
}

NumbersOptions Solves::options() {
    NumbersOptions options;
    options.threads = input_.threads;
    if (input_.goal.edge) {
        options.edge = *input_.goal.edge;
    }
    const int solve = ++solves_;
    options.progress = [this, solve](const std::string& phase, double share) {
        constexpr double of_the_rest = 0.15; // how many solves it takes is not known
        const double done = 1 - std::pow(1 - of_the_rest, solve - 1 + std::min(share, 1.0));
        progress_of(console_)("solve " + std::to_string(solve) + ": " + phase, done);
    };
    return options;
}

/// The start's mesh, which has the lines of all cases, and its order of elimination.
std::shared_ptr<const PreparedStudy> Solves::prepared() {
    const bool needed =
        std::any_of(problem_.numbers.begin(), problem_.numbers.end(), [](const auto& number) {
            return number.kind == NumberRequest::Kind::bench_case ||
                   number.kind == NumberRequest::Kind::mode;
        });
    if (!prepared_ && needed) {
        StudyOptions study;
        study.threads = input_.threads;
        prepared_ = std::make_shared<PreparedStudy>(prepare_study(input_.board, study));
    }
    return prepared_;
}

void Solves::warn(const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings) {
        if (std::find(warned_.begin(), warned_.end(), warning) == warned_.end()) {
            warned_.push_back(warning);
            console_.err << input_.board.file << ": warning: " << warning << "\n";
        }
    }
}

} // namespace vrid
