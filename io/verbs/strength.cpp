#include <algorithm>
#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/field_files.hpp"
#include "io/write/staged_files.hpp"
#include "mesh/board/error.hpp"
#include "solver/bend.hpp"
#include "solver/cases/cases.hpp"
#include "solver/strength_view.hpp"

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
    options.bend_as_far = true;
    return options;
}

bool over_before_load(const BoardStrength& strength) {
    return (strength.edge && strength.edge->before_load) ||
           std::ranges::any_of(strength.result.cases, &CaseStrength::before_load);
}

bool lies_down(const BoardStrength& strength) {
    return strength.edge && std::ranges::any_of(strength.edge->conditions, [](const auto& one) {
               return !one.no_equilibrium.empty();
           });
}

/// What of the options goes with --edge only, and what with cases only.
void check_edge_options(const Arguments& arguments) {
    std::vector<Problem> problems;
    const bool edge = arguments.has("--edge");
    std::vector<std::string> with_edge{"--to-failure"};
    for (const Option& option : edge_condition_table()) {
        with_edge.push_back(option.name);
    }
    for (const std::string& name : with_edge) {
        if (!edge && arguments.has(name)) {
            problems.push_back({name, "belongs to an edge condition: give --edge, too"});
        }
    }
    for (const char* name : {"--at", "--bend"}) {
        if (edge && !arguments.has("--case") && arguments.has(name)) {
            problems.push_back(
                {name, "belongs to a bench case, and --edge alone runs none: name it by --case"});
        }
    }
    throw_if_any(problems);
}

/// Edge conditions, if asked for; bench cases unless these alone are.
void solve_into(BoardStrength& strength, const Arguments& arguments,
                const StrengthOptions& options) {
    if (arguments.has("--edge")) {
        EdgeStrengthOptions edge{options};
        edge.criterion = options.criterion;
        edge.cooled = options.cooled;
        edge.to_failure = arguments.has("--to-failure");
        strength.edge = run_edge_strength(strength.board, edge_conditions(arguments), edge);
    }
    strength.result = strength.edge && !arguments.has("--case")
                          ? without_cases(*strength.edge)
                          : run_strength(strength.board, options);
}

/// Files if they are wanted. Returns strength.json's text, empty if nobody asked for it.
std::string written(const BoardStrength& strength, const Arguments& arguments, Console& console) {
    if (!arguments.has("--out") && !arguments.has("--json")) {
        return "";
    }
    const StrengthView view = strength.result.cases.empty() // conditions on the edge alone
                                  ? StrengthView{}
                                  : strength_view(strength.board, strength.result);
    if (!arguments.has("--out") || !strength.result.not_bent.empty()) {
        return strength_json(strength, view);
    }
    const std::string folder = text_of(arguments, "--out");
    std::string json = write_strength(strength, view, arguments.has("--linear"), folder,
                                      [&console] { stop_if_cancelled(console); });
    console.err << "results are in " << folder << "\n";
    return json;
}

int run_strength_verb(const Arguments& arguments, Console& console) {
    check_edge_options(arguments);
    const StrengthOptions options = strength_options(arguments, console);
    if (arguments.has("--edge")) {
        edge_conditions(arguments); // what is wrong with them comes before the board
    }
    const MaterialLibrary library = load_material_library();
    try_folder(out_folder(arguments));
    std::vector<Problem> warnings;
    BoardStrength strength{
        board_argument(arguments.positional.front(), library, arguments, console, &warnings).board,
        {}};
    strength.warnings = std::move(warnings);
    stop_if_cancelled(console);
    solve_into(strength, arguments, options);
    wipe_progress(console);
    if (strength.edge) {
        tell_warnings(strength.board.file, strength.edge->warnings, console);
    }
    tell_warnings(strength.board.file, strength.result.warnings, console);
    const std::string json = written(strength, arguments, console);
    console.out << (arguments.has("--json") ? json : strength_text(strength));
    throw_if_missed(strength.result.not_bent);
    const bool kept = !over_before_load(strength) && !lies_down(strength) &&
                      !any_exceeded(strength_verdicts(strength));
    return kept ? exit_done : exit_limit_exceeded;
}

std::vector<std::string> loaded_cases() {
    std::vector<std::string> names;
    for (const BenchCase& bench : case_table()) {
        if (bench.loading) {
            names.push_back(bench.info.name);
        }
    }
    return names;
}

std::vector<Option> option_table() {
    const std::vector<Option> options{
        {"--case", "NAME",
         "This case only; may be repeated. Default: every static case the board allows.", true,
         loaded_cases()},
        {"--criterion",
         "C",
         "tsai-hill (default) or max-stress.",
         false,
         {"tsai-hill", "max-stress"}},
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
         "failure index by ply) into this folder, which is created if needed; vrid report makes a "
         "page of it."},
        {"--linear", "",
         "Write four-node cells to .vtu files, for viewers without Lagrange cells."},
        {"--json", "", "Print strength.json's content instead of tables."},
        {"--edge", "",
         "The board on its edge in snow, as in vrid edge: the highest failure index in every "
         "condition, and where. Bench cases only if named by --case."}};
    return with_options(
        with_options(options, edge_condition_table()),
        {{"--to-failure", "",
          "With --edge: also the load at which the index is 1, angle and snow as they are, and the "
          "load that breaks the board. With --bent about a minute."}});
}

} // namespace

Verb strength_verb() {
    return {
        "strength",
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
            "is over a strength, or there is no equilibrium on the edge.\n\nOn its edge the "
            "board's contact changes with the load, so that the index at a load is told, not a "
            "factor; --to-failure raises the load on both feet up to 100000 N until the index is "
            "1, to 1 %, and says where that ends if it cannot be reached.",
        option_table(),
        {"vrid strength board.toml", "vrid strength board.toml --case nose-flex --at 500",
         "vrid strength board.toml --edge --angle 60 --force 1600 --to-failure"},
        run_strength_verb};
}

} // namespace vrid
