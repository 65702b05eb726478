#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/comparison.hpp"
#include "solver/bend.hpp"

namespace vrid {
namespace {

int run_compare(const Arguments& arguments, Console& console) {
    StudyOptions options = study_options(arguments, console);
    options.bend_as_far = true;
    const MaterialLibrary library = load_material_library();
    std::vector<std::string> paths = arguments.positional;
    if (paths.size() < 2) { // against itself with the values of --set
        if (!arguments.has("--set")) {
            throw InputError("", "found one board; accepted: two or more, or one with --set\nsee "
                                 "vrid compare --help");
        }
        paths.push_back(paths.front());
    }
    std::vector<SolvedBoard> boards;
    for (const std::string& path : paths) { // all, before the first is solved
        boards.push_back(read_for_study(
            path, library, boards.empty() ? without_set(arguments) : arguments, console));
    }
    bool met = true;
    for (SolvedBoard& solved : boards) {
        solve_into(solved, options, console);
        met = met && solved.study.rel_error_met;
    }
    const Comparison comparison = compare_boards(boards);
    console.out << (arguments.has("--json") ? json(comparison) : text(comparison) + caution_text());
    for (const SolvedBoard& solved : boards) {
        throw_if_missed(solved.study.not_bent);
    }
    return met ? exit_done : exit_limit_exceeded;
}

} // namespace

Verb compare_verb() {
    return {"compare",
            "the same cases for several boards side by side",
            "BOARD [BOARD...]",
            1,
            1000,
            "Solves the same cases for every board and prints each number beside the others, with "
            "the change in percent against the first board. A difference smaller than the sum of "
            "the two error bars is marked as not resolved: the computation cannot tell the boards "
            "apart. Limits are not checked.\n\n--set changes every board but the first. One board "
            "with --set is compared with itself without the change.",
            with_options(study_option_table(),
                         {{"--json", "", "Print one JSON document instead of tables."}}),
            {"vrid compare today.toml softer-core.toml",
             "vrid compare today.toml --set core.thickness_scale=0.95",
             "vrid compare a.toml b.toml --case nose-twist"},
            run_compare,
            true};
}

} // namespace vrid
