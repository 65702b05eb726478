#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/verbs/arguments.hpp"
#include "io/verbs/board_argument.hpp"
#include "io/verbs/progress.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/strength_view_json.hpp"
#include "io/write/stress_grid.hpp"
#include "mesh/board/error.hpp"

namespace vrid {
namespace {

Criterion criterion_of(const Arguments& arguments, std::vector<Problem>& problems) {
    const std::string name = text_of(arguments, "--criterion");
    if (arguments.has("--criterion") && name != "tsai-hill" && name != "max-stress") {
        problems.push_back({"--criterion", "found '" + name +
                                               "'; accepted: tsai-hill or max-stress (Tsai-Wu "
                                               "is not offered: cracks and broken fibres would "
                                               "get one number)"});
    }
    return name == "max-stress" ? Criterion::max_stress : Criterion::tsai_hill;
}

StrengthOptions strength_options(const Arguments& arguments, Console& console) {
    std::vector<Problem> problems;
    StrengthOptions options;
    options.criterion = criterion_of(arguments, problems);
    options.cooled = arguments.has("--cold")       ? "cold"
                     : arguments.has("--residual") ? "release"
                                                   : "";
    options.at = number_of(arguments, {"--at", 1e-6, 1e9, false}, problems);
    throw_if_any(problems);
    const StudyOptions study = study_options(arguments, console);
    static_cast<Settings&>(options) = study;
    options.cases = study.cases;
    return options;
}

bool over_before_load(const StrengthResult& result) {
    for (const CaseStrength& one : result.cases) {
        if (one.before_load) {
            return true;
        }
    }
    return false;
}

/// What is wrong with the folder should not come to light after minutes of solving.
void try_folder(const Arguments& arguments) {
    if (arguments.has("--out")) {
        if (text_of(arguments, "--out").empty()) {
            throw InputError("--out", "found an empty name; accepted: a folder");
        }
        const StagedFiles created(text_of(arguments, "--out"));
    }
}

/// Files if they are wanted. Returns strength.json's text, empty if nobody asked for it.
std::string written(const BoardStrength& strength, const Arguments& arguments, Console& console) {
    if (!arguments.has("--out") && !arguments.has("--json")) {
        return "";
    }
    const StrengthView view = strength_view(strength.board, strength.result);
    if (!arguments.has("--out")) {
        return strength_json(strength, view);
    }
    const std::string folder = text_of(arguments, "--out");
    std::string json = write_strength(strength, view, arguments.has("--linear"), folder,
                                      [&console] { stop_if_cancelled(console); });
    console.err << "results are in " << folder << "\n";
    return json;
}

int run_strength_verb(const Arguments& arguments, Console& console) {
    const StrengthOptions options = strength_options(arguments, console);
    const MaterialLibrary library = load_material_library();
    try_folder(arguments);
    BoardStrength strength{
        board_argument(arguments.positional.front(), library, arguments, console).board, {}};
    stop_if_cancelled(console);
    strength.result = run_strength(strength.board, options);
    wipe_progress(console);
    tell_warnings(strength.board.file, strength.result.warnings, console);
    const std::string json = written(strength, arguments, console);
    console.out << (arguments.has("--json") ? json : strength_text(strength));
    const bool kept =
        !over_before_load(strength.result) && !any_exceeded(strength_verdicts(strength));
    return kept ? exit_done : exit_limit_exceeded;
}

std::vector<Option> option_table() {
    return {{"--case", "NAME",
             "This case only; may be repeated. Default: every static case the board allows.", true},
            {"--criterion", "C", "tsai-hill (default) or max-stress."},
            {"--at", "LOAD", "Also the failure index at this load, in N or N m as the case has."},
            {"--residual", "",
             "With the stress that the board has out of the press; needs [cure]. Numbers of limits "
             "and suites are without it."},
            {"--cold", "", "With the stress that it has in the cold (cold_C of [cure])."},
            {"--degree", "P", "Polynomial degree of the elements, 1 to 6."},
            {"--size-mm", "MM", "Longest side of an element."},
            {"--bend", "MM,MM",
             "Also the highest failure index of the board bent to these travels in mm, centre down "
             "and tips up: by its own stress there, not scaled from a small load.",
             true},
            flat_option(),
            {"--threads", "N", "Threads to use. Default: one for every core."},
            strict_option(),
            {"--out", "DIR",
             "Write strength.json, drawing.json and for every case strength-CASE.vtu (stress and "
             "failure index by ply) into this folder, which is created if needed; vrid report "
             "makes a page of it."},
            {"--linear", "",
             "Write four-node cells to .vtu files, for viewers without Lagrange cells."},
            {"--json", "", "Print strength.json's content instead of tables."}};
}

} // namespace

Verb strength_verb() {
    return {"strength",
            "at what load the laminate fails first, where, in which ply and how",
            "BOARD",
            1,
            1,
            "For every static case the force or torque, in the worse of both directions, at which "
            "the first point of the laminate reaches its strength: where, in which layer and ply, "
            "and how; what fails next, and what breaks the board. " +
                strength_caution() +
                "\n\nStresses are means over a disc as wide as the board is thick there, because "
                "at the corners of clamps a plate's stress has no bound. A first failure at a "
                "clamp is as much the clamp's as the board's: the first one away from all clamps "
                "is listed below it. Layers without strengths are not judged, and the headline "
                "says so. Exit status 1: a load is outside the board's [limits], or residual "
                "stress alone "
                "is over a strength.",
            option_table(),
            {"vrid strength board.toml", "vrid strength board.toml --case nose-flex --at 500"},
            run_strength_verb};
}

} // namespace vrid
