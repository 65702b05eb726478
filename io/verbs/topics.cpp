#include "io/verbs/help.hpp"

#include "io/read/keys_text.hpp"
#include "io/write/caution.hpp"
#include "io/write/table.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/design/number_id.hpp"

namespace vrid {

namespace {

constexpr std::size_t page_letters = 80;

std::string paragraph(const std::string& words) {
    return wrapped(words, page_letters) + "\n";
}

struct KeyLine {
    std::string key, accepted, meaning;
};

// Keys of one table of a file, with what is accepted and what it means.
std::string keys(const std::string& heading, const std::vector<KeyLine>& lines) {
    std::string all = heading + "\n";
    for (const KeyLine& line : lines) {
        all += wrapped(line.key + ": " + line.accepted + ". " + line.meaning, page_letters, 2);
    }
    return all + "\n";
}

std::string board_topic() {
    return paragraph(
               "A board file is TOML and describes one board as the shop draws, cuts and lays it "
               "up. Keys that carry a unit say so in their name. x runs to the nose from the "
               "middle of the running length, y to the left, z up from the underside of the base; "
               "ply angles turn from +x towards +y seen from above. Layers are listed from the "
               "running surface upwards.") +
           paragraph("'vrid new board.toml' writes a commented file to start from; 'vrid check' "
                     "says what was understood. All mistakes in a file are reported at once, each "
                     "with its line and column. These are all keys:") +
           keys_text("");
}

std::string suite_topic() {
    return paragraph("A suite is what 'vrid batch SUITE.toml --out DIR' runs: every board and "
                     "every variant of it.") +
           keys("at the top of the file",
                {{"format", "1, required", "Version of the format."},
                 {"name", "text, required", "What the suite is called in its report."},
                 {"boards", "list of files or patterns as ../nh-*/board.toml, required",
                  "Relative to the suite's folder."},
                 {"cases", "list of bench cases, required", "[\"all\"] for every one."},
                 {"bend_mm", "list of travels in mm, optional",
                  "Also bend the boards, as vrid solve --bend."},
                 {"strength", "true or false, optional",
                  "Also the loads at first failure; implied by a limit on one."}}) +
           keys("[edge], optional: the map of the board on its left edge",
                {{"angle_deg", "list of numbers, required", "Edge angles."},
                 {"force_N", "list of numbers, required", "Loads on the edge."},
                 {"hardness_Npmm3", "list of numbers, required",
                  "Of the snow. Every angle goes with every load on every snow."},
                 {"bent", "true or false, optional",
                  "In large motion, as vrid edge --bent: some seconds a condition."}}) +
           keys("[[variant]], any number of them",
                {{"name", "text, required", "Unique among the variants."},
                 {"set", "table of design values by path, required",
                  "{ \"core.thickness_scale\" = 1.03 }, { \"layer.lower glass.fabric\" = "
                  "\"biax-680\" }."}}) +
           keys("[limits], optional, over those of the board files: \"NUMBER\" = { ... }",
                {{"min", "number in bench units", "Least that is accepted."},
                 {"max", "number in bench units", "Most that is accepted."}}) +
           keys(
               "[drift], optional",
               {{"baseline", "folder, required",
                 "Results that you have looked at and found good, relative to the suite's folder."},
                {"percent", "number, required",
                 "A change by more than this and more than both error bars is marked."}});
}

std::vector<KeyLine> free_keys(bool match) {
    std::vector<KeyLine> lines{
        {"value", "path or pattern of design values, required",
         "What may change: \"core.thickness_mm[11]\", \"layer.*.angle_deg\"."},
        {"min", match ? "number, required" : "number, optional", "In the unit of the path."},
        {"max", match ? "number, required" : "number, optional", "In the unit of the path."}};
    if (match) {
        lines.push_back({"max_slope", "mm per mm, optional",
                         "Of the core's profile: what the sander and the fibres can follow."});
        lines.push_back({"round_to", "number, optional", "The step that the shop works in."});
        lines.push_back({"carry", "list of paths of stations, optional",
                         "Taken along by a value of the outline or stance, times new over old."});
    }
    return lines;
}

std::string goal_topic() {
    return paragraph("A goal is what 'vrid match BOARD GOAL.toml' reaches: numbers wanted of the "
                     "board, and the values that may change for it.") +
           keys("at the top of the file", {{"format", "1, optional", "Version of the format."}}) +
           keys(
               "[[target]], at least one; of percent, value, same_as and a range exactly one",
               {{"number", "name of a number, required",
                 "\"nose-twist\", \"mass\", \"EI@120\", \"edge.loss_nose\"."},
                {"percent", "number", "Change against the board as it is."},
                {"value", "number in bench units", "To reach."},
                {"same_as", "board file", "The target is that board's number."},
                {"min", "number in bench units", "At least this."},
                {"max", "number in bench units", "At most this."},
                {"within_percent", "number, 0.5 when absent", "How near is near enough."},
                {"within_mm", "number, 1 when absent", "The same for a position."},
                {"within_deg", "number, 0.1 when absent", "The same for a twist out of the press."},
                {"scale", "table of a path, or rider_kg, to a power, optional",
                 "With same_as = \"approved\": the wanted number goes with these values."}}) +
           keys("[[free]], at least one", free_keys(true)) +
           keys("[objective], optional",
                {{"least", "\"change\" (when absent) or \"mass\"",
                  "What is made small where several boards reach the targets."}}) +
           keys("[edge], optional: the condition of targets on the edge; as vrid edge's options",
                {{"angle_deg", "number", "Edge angle; 45 when absent."},
                 {"force_N", "number", "Load; 800 when absent."},
                 {"hardness", "number, or a name of snow", "As vrid edge --hardness."},
                 {"share, side, law", "as vrid edge", "0.5, left and volume when absent."},
                 {"bent", "true or false", "In large motion, as vrid edge --bent."}}) +
           keys("[[size]], any number: a family from the approved board; then --out is a folder",
                {{"name", "text, required", "Name of its file."},
                 {"set", "table of design values by path", "What is given for this size."},
                 {"sidecut_m", "number", "Sidecut radius; the waist width follows."},
                 {"stretch", "list of paths of stations",
                  "Stretched with the running length: \"core.station_mm\", \"edge.x_mm\"."},
                 {"rider_kg", "number", "Weight of its rider."}}) +
           keys("[approved], optional",
                {{"rider_kg", "number", "Weight of the approved board's rider."}});
}

std::string bench_topic() {
    return paragraph(
               "A bench file is what 'vrid calibrate BOARD BENCH.toml' explains: readings of a "
               "built board, and the values of its materials that may differ from the file's.") +
           keys("at the top of the file", {{"format", "1, optional", "Version of the format."}}) +
           keys("[[reading]], at least one",
                {{"number", "name of a number, required", "As in a goal, except edge results."},
                 {"value", "number in bench units, required", "What the bench read."},
                 {"sd", "number in bench units above 0, required",
                  "One standard deviation of the reading."}}) +
           keys("[[free]], at least one", free_keys(false));
}

std::string result_topic() {
    return paragraph("'vrid solve --out DIR' writes result.json (also printed by --json), "
                     "stations.csv, board.vtu and one .vtu a case. A number in result.json is "
                     "{ \"value\", \"error\", \"unit\" } in bench units; error is the half width "
                     "of its bar.") +
           keys("result.json",
                {{"format", "1", "Version of the format."},
                 {"program", "text", "Name and version of the program that wrote it."},
                 {"board", "name, hash", "The hash is of the file and of the files that it names."},
                 {"outline", "length, widths, sidecut radius, area", "As vrid check."},
                 {"mass", "number", "With inserts and glue lines."},
                 {"balance_point", "x, y", "From the middle of the running length."},
                 {"cases", "by name", "Stiffness, or frequencies, of each bench case."},
                 {"skipped", "by name", "Why a case was not run, or a travel not reached."},
                 {"limits", "list", "The board's [limits] against its numbers."},
                 {"mesh", "elements and more", "What was solved."},
                 {"solver", "residual and more", "How well."},
                 {"warnings", "list", "Of the board file."},
                 {"files", "list", "What else was written."},
                 {"caution", "text", "What the numbers do not prove."},
                 {"seconds", "by step", "Time it took."}}) +
           keys("stations.csv: one line a station along the board",
                {{"x_mm and others", "numbers",
                  "Units are in the names of the columns. Mass per length is without glue lines "
                  "and inserts."}}) +
           keys("lines.csv: deflection and twist from tip to tip, every 10 mm (closer on "
                "pieces shorter than 0.6 m)",
                {{"x_mm and others", "numbers", "The columns of stations.csv with these names."}}) +
           paragraph("vrid report DIR makes a page from it.") + short_caution + "\n";
}

std::string names_topic() {
    std::string cases;
    for (const BenchCase& bench : case_table()) {
        if (bench.modes == 0 && bench.cools_to == nullptr) {
            cases += (cases.empty() ? "" : ", ") + bench.info.name;
        }
    }
    return paragraph("Numbers and design values have the same names everywhere: in [limits] and "
                     "[tolerance], in goal, bench and suite files, in a lot's readings, and in "
                     "--of, --to and --set. * stands for any letters, as in layer.*.angle_deg; "
                     "entries of a list count from 0.") +
           keys(
               "numbers, in bench units",
               {{"mass, balance_point.x, balance_point.y", "kg, mm", "Of the whole board."},
                {"length, area, sidecut_radius", "mm, m2, m",
                 "Of the outline; where its sides "
                 "differ the tighter one's radius."},
                {cases, "N/mm or N m/deg", "Stiffness in that bench case."},
                {"\"free-modes mode 1\" to \"free-modes mode 6\"", "Hz", "Free frequencies."},
                {"EI@X, GJ@X, thickness@X", "N m2, mm", "Of the section at the station X in mm."},
                {"\"nose-flex at 60 mm\", .force, .tangent, .flattening", "N/mm, N, N/mm, mm",
                 "Bent to that travel."},
                {"\"nose-twist bent 60 mm\"", "N m/deg", "Torsional stiffness while bent."},
                {"edge.NAME", "the board on snow, at one condition",
                 "NAME is " + joined(edge_number_names()) + "."},
                {"release.NAME, cold.NAME, mould.camber", "mm, deg; needs [cure]",
                 "Out of the press: camber, concavity@X, twist and others."},
                {"pressed.camber, .camber_edge, .nose_height, .tail_height", "mm; needs mould_z_mm",
                 "Of the board out of the mould that exists, in the room."},
                {"strength.CASE, .breaks, .travel", "N or N m; mm or deg",
                 "Load at the first failure, load that breaks the board, travel."}}) +
           keys("design values, in the unit of the path",
                {{"core.thickness_mm[3]", "mm", "One station; without [3] all of them."},
                 {"core.thickness_scale", "share", "The whole core, thicker or thinner."},
                 {"layer.NAME.angle_deg, .thickness_mm, .areal_weight_scale", "deg, mm, share",
                  "A layer's angle, thickness of a sheet, weight of a fabric."},
                 {"layer.NAME.fabric", "name of a fabric, for --set and suites",
                  "Another fabric in its place."},
                 {"fabric.NAME.fibre_volume_fraction", "share", "Of a laminated fabric."},
                 {"material.NAME.KEY", "as vrid keys material", "A constant of a material."},
                 {"planform.KEY, stance.KEY", "mm; fullness a share",
                  "Widths, lengths, fullness; the feet."},
                 {"core.station_mm[3], edge.x_mm[0], layer.NAME.zone.x_mm[1], "
                  "rest_shape.station_mm[2], cure.mould_mm[1]",
                  "mm",
                  "Where something begins, ends or lies; lines of the mesh move with it. Heights "
                  "of the rest shape are no design values."},
                 {"edge.width_mm, edge.flange.width_mm, sidewall.width_mm", "mm",
                  "Bands along the outline."},
                 {"cure.stress_free_C, cure.moisture_percent", "deg C, % points",
                  "How it was pressed."},
                 {"mass_only.resin_gsm", "g/m2", "Glue lines."}});
}

std::string cases_topic() {
    std::string all = paragraph(
        "Bench cases are linear and static, on the board's rest shape (--flat: on the flat blank), "
        "so that a shop can build the same rig. w is vertical; feet and bars turn about the long "
        "axis. A foot strip is as wide as the board and as long as the foot.");
    for (const CaseInfo& one : bench_cases()) {
        all += wrapped(one.name, page_letters) + wrapped("held: " + one.held, page_letters, 2) +
               wrapped("loaded: " + one.loaded, page_letters, 2) +
               wrapped("reported: " + one.reported, page_letters, 2);
    }
    return all + "\n" + short_caution + "\n";
}

} // namespace

const std::vector<Topic>& topics() {
    static const std::vector<Topic> table{
        {"board", "the board file: conventions and every key", board_topic},
        {"suite", "the file of vrid batch", suite_topic},
        {"goal", "the file of vrid match", goal_topic},
        {"bench", "the file of vrid calibrate", bench_topic},
        {"result", "what vrid solve writes", result_topic},
        {"names", "the names of numbers and design values", names_topic},
        {"cases", "the bench cases: how the board is held and loaded", cases_topic}};
    return table;
}

} // namespace vrid
