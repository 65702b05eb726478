#include <filesystem>
#include <optional>
#include <ostream>

#include "io/design/edit_board.hpp"
#include "io/design/new_board.hpp"
#include "io/design/number_names.hpp"
#include "io/design/read_goal.hpp"
#include "io/materials/design_paths.hpp"
#include "io/verbs/match_solves.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "solver/design/design_board.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {
namespace {

namespace fs = std::filesystem;

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
            throw InputError("--out",
                             "found " + input.out + ", which is an input; accepted: another name");
        }
    }
    if (fs::is_directory(out, ignored)) {
        throw InputError("--out", "found a folder, " + input.out + "; accepted: a file's name");
    }
    const std::string folder = out.parent_path().string();
    if (!folder.empty() && !fs::is_directory(folder, ignored)) {
        throw InputError("--out", "found no folder " + folder);
    }
    check_answer(input.out, "--out", {input.source, input.board, input.library});
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
        const NumberFound found = find_number(number_name(target.number), *input.others.back());
        if (!found.request) {
            problems.push_back(
                {target.place, target.same_as + " has no such number: " + found.wrong});
        }
    }
    throw_if_any(problems);
}

/// The values that are others than the board's, as a file writes them.
std::vector<Change> changes(const MatchProblem& problem, const Eigen::VectorXd& values) {
    std::vector<Change> all;
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const MatchValue& value = problem.values[i];
        const double after = values[static_cast<Eigen::Index>(i)];
        if (after != value.start) {
            all.push_back({path_of(value.id), from_si(value.id, after), path_of(value.id)});
            for (std::size_t k = 0; k < value.carry.size(); ++k) {
                const DesignId& along = value.carry[k];
                constexpr int digits = 10; // no last bits of 583.25
                all.push_back(
                    {path_of(along),
                     round_significant(from_si(along, value.carried_at(k, after)), digits),
                     path_of(along)});
            }
        }
    }
    return all;
}

MatchInput read_input(const Arguments& arguments, const MaterialLibrary& library, Console& console,
                      Family& family) {
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
    MatchInput input{library, board_text(path), {}, {}, {}, "", 0};
    input.threads = static_cast<int>(given);
    input.out = text_of(arguments, "--out");
    input.board = board_argument(input.source, library, arguments, console).board;
    input.goal = read_goal(goal, input.board, &family);
    if (family.sizes.empty()) {
        check_out(input, goal);
        read_others(input);
    } else {
        check_answer(input.out + "/size.toml", "--out", {input.source, input.board, library});
    }
    return input;
}

int run_match(const Arguments& arguments, Console& console) {
    double seconds = 0;
    std::optional<Stopwatch> watch(seconds);
    const MaterialLibrary library = load_material_library();
    Family family;
    const MatchInput input = read_input(arguments, library, console, family);
    if (!family.sizes.empty()) {
        return match_family(input, family, arguments.positional[1], arguments.has("--json"),
                            console);
    }
    const Matched matched = match_board(input, console);
    const MatchResult& result = matched.result;
    MatchReport report{input.board, input.goal, matched.problem, result, matched.others, "", 0, {}};
    const DesignBoard answer = design_board(input.board, matched.problem.set(result.values));
    report.weaker = weaker_places(input.board, *answer.board);
    Settings settings;
    settings.threads = input.threads;
    report.limits =
        held_limits(*answer.board, known_numbers(input.goal, matched), input.goal, settings);
    if (result.met) {
        if (input.board.stance) { // without feet hardly a case is left
            add_earlier_failures(input.board, *answer.board, settings, report.weaker);
        }
        write_file(input.out, new_board_text(matched.text, input.source.file, "match",
                                             strength_words(report.weaker)));
        report.written = input.out;
    }
    watch.reset();
    report.seconds = seconds;
    console.out << (arguments.has("--json") ? match_json(report)
                                            : match_text(report) + caution_text());
    return result.met ? exit_done : exit_limit_exceeded;
}

} // namespace

Matched match_board(const MatchInput& input, Console& console) {
    Matched matched;
    matched.problem = match_problem(input.board, input.goal);
    if (matched.problem.values.empty()) {
        throw InputError(input.goal.free.front().place,
                         "free.value: none of the free values moves a number");
    }
    Solves solves(input, matched.problem, console);
    const std::vector<double> wanted = solves.wanted_numbers();
    matched.result =
        match(matched.problem, input.goal, wanted,
              [&](const Eigen::VectorXd& values, bool fresh) { return solves(values, fresh); });
    wipe_progress(console);
    matched.others = solves.others(matched.result.values);
    try {
        matched.text = edit_board(input.source, input.library,
                                  changes(matched.problem, matched.result.values));
    } catch (const InputError&) {
        if (matched.result.met) {
            throw;
        }
        matched.text = input.source.text; // of a nearest one that is nowhere written
    }
    return matched;
}

std::vector<NamedQuantity> known_numbers(const Goal& goal, const Matched& matched) {
    std::vector<NamedQuantity> known;
    for (std::size_t j = 0; j < goal.targets.size(); ++j) {
        known.push_back({number_name(goal.targets[j].number), matched.result.targets[j].after});
    }
    for (const NumberPair& other : matched.others) {
        known.push_back({other.name, other.after});
    }
    return known;
}

Verb match_verb() {
    return {"match",
            "changes chosen values of a board until its numbers are what you want",
            "BOARD GOAL",
            2,
            2,
            "The goal file says what numbers are to become ([[target]]: percent, value, min, max "
            "or same_as another board), which values may change and between which limits "
            "([[free]]), and what to keep small besides ([objective]: mass or change). The answer "
            "is a copy of the board file in which only the changed values differ; comments stay. "
            "It is rounded (round_to) before it is judged: a target reported as met is met by the "
            "file as written.\n\nIf there is no answer (exit status 1), the nearest board is shown "
            "with the targets and limits that prevent a better one, and no file is "
            "written. Of the board's own [limits], which the goal need not name, those that the "
            "board found breaks are listed.\n\nWith [[size]] in the goal the board is the approved "
            "one of a family: each "
            "size is matched by its own set values, --out is a folder that gets a board file for "
            "each, and family.json. Exit status 1 says that a size was not met.",
            {{"--out", "NEW",
              "The board file to write when all targets are met; of a family a folder."},
             {"--threads", "N", "Threads to use. Default: one for every core."},
             strict_option(),
             {"--json", "", "Print one JSON document instead of tables."}},
            {"vrid match board.toml goal.toml --out new.toml"},
            run_match,
            true};
}

} // namespace vrid
