#include <algorithm>
#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/sense_report.hpp"
#include "io/write/staged_files.hpp"

namespace vrid {
namespace {

// The values asked for that move lines of the mesh.
std::vector<LineValue> lines_shown(const Sense& sense) {
    std::vector<LineValue> lines;
    for (std::size_t i = 0; i < sense.values.size(); ++i) {
        if (sense.shown[i] && sense.values[i].kind().moves_lines) {
            lines.push_back({sense.values[i].id, {}});
        }
    }
    return lines;
}

int run_sense(const Arguments& arguments, Console& console) {
    const EdgeCondition condition = one_condition(arguments);
    const Settings settings = study_options(arguments, console);
    std::vector<Problem> problems;
    const double rows = number_of(arguments, {"--rows", 1, 100000, true}, problems).value_or(12);
    throw_if_any(problems);
    const std::string folder = out_folder(arguments);
    Sense sense;
    NamedBoard read =
        board_argument(arguments.positional.front(), load_material_library(), arguments, console);
    sense.board = std::move(read.board);
    sense.set = std::move(read.set);
    sense.values = design_board(sense.board).values;
    sense.shown = values_asked(arguments, sense.values);
    const std::vector<NumberId> asked = numbers_asked(arguments, sense.board, settings.bend);
    sense.condition = condition_of(asked, condition);
    try_folder(folder);
    stop_if_cancelled(console);
    Session session(sense.board, settings, cases_of(asked));
    sense.numbers = session.numbers(
        asked, {true, !folder.empty(), condition, lines_shown(sense), arguments.has("--widen")});
    wipe_progress(console);
    tell_warnings(sense.board.file, sense.numbers.warnings, console);
    if (!folder.empty()) {
        write_sense(sense, folder);
        console.err << "results are in " << folder << "\n";
    }
    console.out << (arguments.has("--json")
                        ? sense_json(sense)
                        : sense_text(sense, static_cast<std::size_t>(rows)) + caution_text());
    return exit_done;
}

std::vector<Option> sense_options() {
    return with_options(
        {{"--of", "NAMES",
          "Numbers, separated by commas: mass, nose-twist, \"free-modes mode 1\", EI@-270, GJ@0, "
          "edge.loss_nose; * stands for any letters. Default: mass, balance point, all bench "
          "cases.",
          true, known_numbers()},
         {"--to", "PATHS",
          "Design values, separated by commas: core.thickness_mm (all stations), "
          "layer.*.angle_deg, "
          "material.poplar.E1_GPa. Default: what a shop can change; material.* means the constants "
          "of materials.",
          true, kind_patterns()},
         {"--rows", "N", "Rows of each table. Default: 12."},
         {"--out", "DIR",
          "Write sense.json, and sense.vtu with the places where sanding the core changes each "
          "number, into this folder, which is created if needed."},
         {"--widen", "",
          "Also where to add width: what a move of the outline outwards, place by place, does to "
          "each bench case and frequency, in sense.json and on the outline's points of sense.vtu; "
          "vrid report draws it. Core, zones and feet stay, edge and bands go along. On a rest "
          "shape "
          "it takes as long as some solves."},
         bend_option(),
         set_option(),
         strict_option(),
         {"--json", "", "Print sense.json's content instead of tables."}},
        numbers_option_table());
}

} // namespace

Verb sense_verb() {
    return {
        "sense",
        "sensitivity of each number to each design value: which station to sand, which angle to "
        "turn",
        "BOARD",
        1,
        1,
        "Exact derivatives of every number by every design value, as the change that one workshop "
        "step makes (0.1 mm of core or sheet, 1 % of the whole core, 1 degree, 5 % areal weight, "
        "0.02 fibre volume fraction, 10 % of a constant; 1 mm of outline, stations and zones, 5 mm "
        "of stance), the largest first. One solve serves all bench cases; derivatives cost a "
        "fraction of it.\n\nOutline, bands, feet and stations move lines of the mesh: --to "
        "planform.*,stance.* names them. Core stations and zones stay where the file says, also "
        "when the outline moves. Where a moved line lies on one at which the section jumps, the "
        "derivative differs between the two sides: the mean is shown, sense.json has both.\n\nEdge "
        "results are those of one condition, with the points in contact held. Where the core has "
        "two equal neighbouring stations its smooth profile has a kink; the derivative is the mean "
        "of both sides.",
        sense_options(),
        {"vrid sense board.toml --of nose-twist,tail-twist --to core.thickness_mm",
         "vrid sense board.toml --of edge.loss_nose --angle 60 --out sense"},
        run_sense,
        true};
}

} // namespace vrid
