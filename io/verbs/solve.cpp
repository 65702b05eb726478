#include <ostream>

#include "io/design/number_names.hpp"
#include "io/materials/material_library.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/formats.hpp"
#include "io/write/result_json.hpp"
#include "io/write/study_text.hpp"
#include "solver/bend.hpp"

namespace vrid {
namespace {

int run_solve(const Arguments& arguments, Console& console) {
    StudyOptions options = study_options(arguments, console);
    const std::string folder = out_folder(arguments);
    options.keep_models = !folder.empty(); // its files show every mode
    options.bend_as_far = true;
    const MaterialLibrary library = load_material_library();
    SolvedBoard solved = read_for_study(arguments.positional.front(), library, arguments, console);
    options.concavity = limited_hollows(solved.board);
    try_folder(folder);
    solve_into(solved, options, console);
    std::string json;
    const bool whole = solved.study.not_bent.empty(); // else it is shown, but no file written
    if (!folder.empty() && whole) {
        json = write_result(solved, {arguments.has("--linear")}, folder,
                            [&console] { stop_if_cancelled(console); });
        console.err << "results are in " << folder << "\n";
    }
    if (!arguments.has("--json")) {
        console.out << study_text(solved) << caution_text();
    } else {
        console.out << (json.empty() ? result_json(solved, {}, 0) : json);
    }
    throw_if_missed(solved.study.not_bent);
    const bool kept = !any_exceeded(verdicts_of(solved)) && solved.study.rel_error_met;
    return kept ? exit_done : exit_limit_exceeded;
}

std::vector<Option> solve_options() {
    return with_options(
        study_option_table(),
        {{"--out", "DIR",
          "Write result.json, stations.csv, board.vtu and one .vtu file a case into this "
          "folder, which is created if needed."},
         {"--linear", "",
          "Write four-node cells to .vtu files, for viewers without Lagrange cells."},
         {"--json", "", "Print result.json's content instead of tables."}});
}

} // namespace

Verb solve_verb() {
    return {"solve",
            "run the bench cases and print stiffnesses with error bars",
            "BOARD",
            1,
            1,
            "Meshes the board, solves the bench cases and prints every stiffness with its error "
            "bar. A case that the board does not allow (no stance, say) is listed as skipped with "
            "the reason; it is an error if it was asked for by name.\n\nThe files under --out "
            "appear together when all of them are complete, or not at all. Exit status 1: a number "
            "is outside the board's [limits]. Exit status 3: it cannot be computed; of --bend the "
            "travels that were reached are printed all the same, but no file is written.",
            solve_options(),
            {"vrid solve board.toml --out results",
             "vrid solve board.toml --case nose-twist --case tail-twist --rel-error 0.1%"},
            run_solve,
            true};
}

} // namespace vrid
