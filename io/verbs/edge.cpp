#include <algorithm>
#include <optional>
#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/staged_files.hpp"
#include "solver/design/session.hpp"

namespace vrid {
namespace {

/// Without feet there is no edge hold: said before anything is solved.
EdgeHold read_with_feet(const std::string& path, const MaterialLibrary& library,
                        const Arguments& arguments, Console& console) {
    std::vector<Problem> warnings;
    NamedBoard read = board_argument(path, library, arguments, console, &warnings);
    EdgeHold hold{std::move(read.board), {}, std::move(read.set), std::move(warnings)};
    if (!hold.board.stance) {
        throw InputError(path, "the board has no [stance]: edge hold needs its feet");
    }
    return hold;
}

/// What is solved, whatever the board.
struct EdgeTask {
    std::vector<EdgeCondition> conditions;
    Settings settings;
};

EdgeTask read_task(const Arguments& arguments, Console& console) {
    return {edge_conditions(arguments), study_options(arguments, console)};
}

/// \param motion also the whole board's, for the files
void solve_into(EdgeHold& hold, const EdgeTask& task, bool motion, Console& console) {
    stop_if_cancelled(console);
    hold.result = Session(hold.board, task.settings).edge(task.conditions, motion);
    wipe_progress(console);
    tell_warnings(hold.board.file, hold.result.warnings, console);
}

bool rests_within_limits(const EdgeHold& hold) {
    return !any_exceeded(edge_verdicts(hold)) &&
           std::ranges::all_of(hold.result.conditions, [](const EdgeConditionResult& one) {
               return one.no_equilibrium.empty();
           });
}

int run_edge_verb(const Arguments& arguments, Console& console) {
    const EdgeTask task = read_task(arguments, console);
    const std::string folder = out_folder(arguments);
    const MaterialLibrary library = load_material_library();
    EdgeHold hold = read_with_feet(arguments.positional.front(), library, arguments, console);
    std::optional<EdgeHold> other;
    if (arguments.has("--compare")) {
        other = read_with_feet(text_of(arguments, "--compare"), library, without_set(arguments),
                               console);
    }
    try_folder(folder);
    solve_into(hold, task, !folder.empty(), console);
    if (other) {
        solve_into(*other, task, false, console);
    }
    const EdgeHold* second = other ? &*other : nullptr;
    if (!folder.empty()) {
        write_edge(hold, second, folder, [&console] { stop_if_cancelled(console); });
        console.err << "results are in " << folder << "\n";
    }
    if (arguments.has("--json")) {
        console.out << edge_json(hold, second);
    } else {
        console.out << (other ? edge_text(hold, *other)
                              : edge_text(hold, arguments.has("--details")))
                    << caution_text();
    }
    return rests_within_limits(hold) && (!other || rests_within_limits(*other))
               ? exit_done
               : exit_limit_exceeded;
}

std::vector<Option> edge_options() {
    std::vector<Option> options = edge_condition_table();
    options.push_back({"--compare", "BOARD",
                       "The same conditions for a second board, with the differences. --set leaves "
                       "it as its file has it."});
    return with_options(
        with_options(options, element_option_table()),
        {{"--out", "DIR",
          "Write edge.json, edge.csv, drawing.json, and for each condition the displaced board "
          "(.vtu) and its edge (.vtp) into this folder, which is created if needed; vrid report "
          "makes a page of it."},
         set_option(),
         strict_option(),
         {"--details", "", "Below the table of several conditions, every number of each."},
         {"--json", "", "Print edge.json's content instead of tables."}});
}

} // namespace

Verb edge_verb() {
    return {
        "edge",
        "where the running edge holds on snow when the board is tilted",
        "BOARD",
        1,
        1,
        "Tilts the board on one edge, loads it through its two feet and lets it sink into flat "
        "snow: how much force each part of the edge carries, how long the contact is, how much "
        "of the edge angle is lost at nose and tail, and what radius the edge draws. Of the angle "
        "lost one part is twist of the section, the other bending across the board: only the first "
        "goes down with torsional stiffness. Lists of values are combined to a map; many "
        "conditions cost little more than one.\n\n"
        "Feet: each foot patch is rigid; both heave and pitch freely, the front one slides along "
        "the board, roll is held at the edging angle and the moment for that is reported. Limits "
        "on "
        "edge.NAME in the board's [limits] hold in every condition without a limit of its own. "
        "Exit status 1: a number is outside them, or in some condition there is no equilibrium. "
        "What the linear plate "
        "does not cover (large slopes, flattening of the cross-section) is warned of; --bent "
        "covers both.",
        edge_options(),
        {"vrid edge board.toml --angle 30,45,60 --force 800,1600 --hardness packed,5",
         "vrid edge board.toml --angle 60 --force 1600 --bent",
         "vrid edge board.toml --side both --compare softer.toml --out edge"},
        run_edge_verb,
        true};
}

} // namespace vrid
