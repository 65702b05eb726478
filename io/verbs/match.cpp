#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>
#include <ostream>

#include "io/design_paths.hpp"
#include "io/edit_board.hpp"
#include "io/number_names.hpp"
#include "io/read_board.hpp"
#include "io/read_goal.hpp"
#include "io/read_text.hpp"
#include "io/verbs/arguments.hpp"
#include "io/verbs/progress.hpp"
#include "io/write/match_report.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/design/free_board.hpp"
#include "solver/stopwatch.hpp"

namespace vrid {
namespace {

namespace fs = std::filesystem;

/// Everything that was read before the first solve.
struct MatchInput {
    const MaterialLibrary& library;
    BoardText source;
    Board board;
    Goal goal;
    std::vector<std::optional<Board>> others; ///< by target: of same_as
    std::string out;
    int threads = 0;
};

std::string folder_of(const std::string& file) {
    return fs::path(file).parent_path().string();
}

/// What would overwrite an input or cannot hold the answer.
void check_out(const MatchInput& input, const std::string& goal) {
    const fs::path out = input.out;
    std::error_code ignored;
    std::vector<std::string> inputs{input.source.file, goal};
    for (const Target& target : input.goal.targets) {
        inputs.push_back(target.same_as);
    }
    for (const std::string& file : inputs) {
        if (!file.empty() && fs::equivalent(out, file, ignored)) {
            throw InputError("--out", "found " + input.out +
                                          ", which is read; accepted: a file of another name");
        }
    }
    if (fs::is_directory(out, ignored)) {
        throw InputError("--out", "found a folder, " + input.out + "; accepted: a file's name");
    }
    const std::string folder = folder_of(input.out);
    if (!folder.empty() && !fs::is_directory(folder, ignored)) {
        throw InputError("--out", "found no folder " + folder);
    }
    try {
        const BoardText moved{input.source.text, input.source.file, folder};
        if (read_board_text(moved, input.library).hash == input.board.hash) {
            return;
        }
    } catch (const InputError&) { // the outline is not found from there
    }
    throw InputError("--out", "the board's outline_csv is found from the board's own folder; "
                              "accepted: a file there");
}

/// The boards of same_as; their numbers are asked for where the goal's are.
void read_others(MatchInput& input) {
    std::vector<Problem> problems;
    for (const Target& target : input.goal.targets) {
        input.others.emplace_back();
        if (target.kind != Target::Kind::same_as) {
            continue;
        }
        input.others.back() = read_board(target.same_as, input.library);
        const NumberFound found = find_number(target.number.name, *input.others.back());
        if (!found.request) {
            problems.push_back(
                {target.place, target.same_as + " has no such number: " + found.wrong});
        }
    }
    throw_if_any(problems);
}

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

/// Solves the board at other values; what stands in no target is kept for the report.
class Solves {
  public:
    Solves(const MatchInput& input, const MatchProblem& problem, Console& console)
        : input_(input), problem_(problem), console_(console),
          others_(others_of(input.board, input.goal)) {}

    NumbersAt operator()(const Eigen::VectorXd& values, bool fresh) {
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

    [[nodiscard]] std::vector<NumberPair> others(const Eigen::VectorXd& values) const {
        const auto after = std::find_if(kept_.begin(), kept_.end(),
                                        [&](const auto& one) { return one.first == values; });
        std::vector<NumberPair> pairs;
        for (std::size_t k = 0; k < others_.size(); ++k) {
            pairs.push_back({others_[k].name, kept_.front().second[k], after->second[k]});
        }
        return pairs;
    }

    NumbersOptions options() {
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

  private:
    /// The start's mesh, which has the lines of all cases, and its order of elimination.
    std::shared_ptr<const PreparedStudy> prepared() {
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

    void warn(const std::vector<std::string>& warnings) {
        for (const std::string& warning : warnings) {
            if (std::find(warned_.begin(), warned_.end(), warning) == warned_.end()) {
                warned_.push_back(warning);
                console_.err << input_.board.file << ": warning: " << warning << "\n";
            }
        }
    }

    const MatchInput& input_;
    const MatchProblem& problem_;
    Console& console_;
    std::vector<NumberRequest> others_;
    std::vector<std::pair<Eigen::VectorXd, std::vector<Quantity>>> kept_;
    std::shared_ptr<const PreparedStudy> prepared_;
    std::shared_ptr<const Mesh> edge_mesh_;
    std::vector<std::string> warned_;
    bool first_mesh_ = false;
    int solves_ = 0;
};

/// By target: the number of the board of same_as; each board is solved once.
std::vector<double> wanted_numbers(const MatchInput& input, Solves& solves) {
    std::vector<double> wanted(input.others.size(), 0);
    std::vector<std::string> done;
    for (std::size_t j = 0; j < wanted.size(); ++j) {
        const std::string& file = input.goal.targets[j].same_as;
        if (!input.others[j] || std::find(done.begin(), done.end(), file) != done.end()) {
            continue;
        }
        done.push_back(file);
        // all cases, so that its mesh is that of a solve
        std::vector<NumberRequest> requests = others_of(*input.others[j], {});
        const std::size_t plain = requests.size();
        std::vector<std::size_t> places;
        for (std::size_t i = j; i < wanted.size(); ++i) {
            if (input.goal.targets[i].same_as == file) {
                requests.push_back(input.goal.targets[i].number);
                places.push_back(i);
            }
        }
        NumbersOptions options = solves.options();
        options.slopes = false;
        const BoardNumbers found = board_numbers(*input.others[j], requests, options);
        for (std::size_t k = 0; k < places.size(); ++k) {
            wanted[places[k]] = found.numbers[plain + k].quantity.value;
        }
    }
    return wanted;
}

/// The values that are others than the board's, as a file writes them.
std::vector<Change> changes(const MatchProblem& problem, const Eigen::VectorXd& values) {
    std::vector<Change> all;
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const MatchValue& value = problem.values[i];
        const double after = values[static_cast<Eigen::Index>(i)];
        if (after != value.start) {
            all.push_back({value.path, from_si(value.range, after), value.path});
        }
    }
    return all;
}

MatchInput read_input(const Arguments& arguments, const MaterialLibrary& library) {
    const std::string& path = arguments.positional[0];
    const std::string& goal = arguments.positional[1];
    std::vector<Problem> problems;
    const NumberOption threads{"--threads", 1, 1024, true};
    const double given = number_of(arguments, threads, problems).value_or(0);
    if (text_of(arguments, "--out").empty()) {
        problems.push_back({"--out", "accepted: the name of the board file to write; it is "
                                     "written when all targets are met"});
    }
    throw_if_any(problems);
    MatchInput input{library, {read_text(path), path, folder_of(path)}, {}, {}, {}, "", 0};
    input.threads = static_cast<int>(given);
    input.out = text_of(arguments, "--out");
    input.board = read_board_text(input.source, library);
    input.goal = read_goal(goal, input.board);
    check_out(input, goal);
    read_others(input);
    return input;
}

int run_match(const Arguments& arguments, Console& console) {
    double seconds = 0;
    std::optional<Stopwatch> watch(seconds);
    const MaterialLibrary library = load_material_library();
    const MatchInput input = read_input(arguments, library);
    MatchProblem problem = match_problem(input.board, input.goal);
    if (problem.values.empty()) {
        throw InputError(input.goal.free.front().place,
                         "free.value: none of the free values moves a number");
    }
    Solves solves(input, problem, console);
    const std::vector<double> wanted = wanted_numbers(input, solves);
    const MatchResult result =
        match(problem, input.goal, wanted,
              [&](const Eigen::VectorXd& values, bool fresh) { return solves(values, fresh); });
    wipe_progress(console);
    MatchReport report{input.board, input.goal, problem, result, solves.others(result.values),
                       "",          0};
    if (result.met) {
        write_file(input.out, edit_board(input.source, library, changes(problem, result.values)));
        report.written = input.out;
    }
    watch.reset();
    report.seconds = seconds;
    console.out << (arguments.has("--json") ? match_json(report) : match_text(report));
    return result.met ? exit_done : exit_limit_exceeded;
}

} // namespace

Verb match_verb() {
    return {
        "match",
        "changes chosen values of a board until its numbers are what is wanted",
        "BOARD GOAL",
        2,
        2,
        "The goal file says what numbers are to become ([[target]]: percent, value, min, max or "
        "same_as another board), which values may move and between which limits ([[free]]), and "
        "what to keep small beside that ([objective]: mass or change). The answer is a copy of the "
        "board file in which only the values that change are others; comments stay. It is rounded "
        "(round_to) before it is judged: what is said to be met is met by the numbers of the file "
        "as it is written.\n\n"
        "Where there is no answer, exit status 1: the nearest one is shown with the targets and "
        "limits that stand in the way, and no file is written.",
        {{"--out", "NEW", "The board file to write when all targets are met."},
         {"--threads", "N", "Threads to use. Default: one for every core."},
         {"--json", "", "Print one JSON document instead of tables."}},
        {"vrid match board.toml goal.toml --out new.toml"},
        run_match};
}

} // namespace vrid
