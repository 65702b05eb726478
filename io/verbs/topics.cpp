#include "io/verbs/topics.hpp"

#include "io/read/keys_text.hpp"
#include "io/write/caution.hpp"
#include "io/write/table.hpp"

namespace vrid {
namespace {

constexpr std::size_t width = 80;

std::string paragraph(const std::string& words) {
    return wrapped(words, width) + "\n";
}

struct KeyLine {
    std::string key, accepted, meaning;
};

// Keys of one table of a file, with what is accepted and what it means.
std::string keys(const std::string& heading, const std::vector<KeyLine>& lines) {
    std::string all = heading + "\n";
    for (const KeyLine& line : lines) {
        all += wrapped(line.key + ": " + line.accepted + ". " + line.meaning, width, 2);
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
                     "says what was understood. All mistakes of a file are told at once, each with "
                     "its line and column. These are all keys, from the table that the reader goes "
                     "by:") +
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
                 {"cases", "list of bench cases, required", "[\"all\"] for every one."}}) +
           keys("[edge], optional: the map of the board on its left edge",
                {{"angle_deg", "list of numbers, required", "Edge angles."},
                 {"force_N", "list of numbers, required", "Loads on the edge."},
                 {"hardness_Npmm3", "list of numbers, required",
                  "Of the snow. Every angle goes with every load on every snow."}}) +
           keys("[[variant]], any number of them",
                {{"name", "text, required", "Its own among the variants."},
                 {"set", "table of design values by path, required",
                  "{ \"core.thickness_scale\" = 1.03 }, { \"layer.lower glass.fabric\" = "
                  "\"biax-680\" }."}}) +
           keys("[limits], optional, over those of the board files: \"NUMBER\" = { ... }",
                {{"min", "number in bench units", "Least that is accepted."},
                 {"max", "number in bench units", "Most that is accepted."}}) +
           keys("[drift], optional",
                {{"baseline", "folder, required",
                  "Results that were looked at and found good, relative to the suite's folder."},
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
                         "Of the core's stations: what the sander and the fibres follow."});
        lines.push_back({"round_to", "number, optional", "The step that the shop works in."});
    }
    return lines;
}

std::string goal_topic() {
    return paragraph("A goal is what 'vrid match BOARD GOAL.toml' reaches: numbers wanted of the "
                     "board, and the values that may change for it.") +
           keys("at the top of the file", {{"format", "1, optional", "Version of the format."}}) +
           keys("[[target]], at least one; of percent, value, same_as and a range exactly one",
                {{"number", "name of a number, required",
                  "\"nose-twist\", \"mass\", \"EI@120\", \"edge loss nose\"."},
                 {"percent", "number", "Change against the board as it is."},
                 {"value", "number in bench units", "To reach."},
                 {"same_as", "board file", "The number of that board is the wanted one."},
                 {"min", "number in bench units", "Keep it from here up."},
                 {"max", "number in bench units", "Keep it up to here."},
                 {"within_percent", "number, 0.5 when absent", "How near is near enough."},
                 {"within_mm", "number, 1 when absent", "The same of a position."}}) +
           keys("[[free]], at least one", free_keys(true)) +
           keys("[objective], optional",
                {{"least", "\"change\" (when absent) or \"mass\"",
                  "What is made small where several boards reach the targets."}}) +
           keys("[edge], optional: the condition of targets on the edge; as vrid edge's options",
                {{"angle_deg", "number", "Edge angle; 45 when absent."},
                 {"force_N", "number", "Load; 800 when absent."},
                 {"hardness", "number, or a name of snow", "As vrid edge --hardness."}});
}

std::string bench_topic() {
    return paragraph("A bench file is what 'vrid calibrate BOARD BENCH.toml' explains: readings of "
                     "a built board, and the values of its materials that may be other than "
                     "told.") +
           keys("at the top of the file", {{"format", "1, optional", "Version of the format."}}) +
           keys("[[reading]], at least one",
                {{"number", "name of a number, required", "As in a goal, but none on the edge."},
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
                 {"skipped", "by name", "Why a case was not run."},
                 {"limits", "list", "The board's [limits] against its numbers."},
                 {"mesh", "elements and more", "What was solved."},
                 {"solver", "residual and more", "How well."},
                 {"warnings", "list", "Of the board file."},
                 {"files", "list", "What else was written."},
                 {"caution", "text", "What the numbers are no proof of."},
                 {"seconds", "by step", "Time it took."}}) +
           keys("stations.csv: one line a station along the board",
                {{"x_mm and others", "numbers", "Units are in the names of the columns."}}) +
           paragraph("vrid report DIR makes a page to look at from it.") + short_caution + "\n";
}

} // namespace

const std::vector<Topic>& topics() {
    static const std::vector<Topic> table{
        {"board", "the board file: conventions and every key", board_topic},
        {"suite", "the file of vrid batch", suite_topic},
        {"goal", "the file of vrid match", goal_topic},
        {"bench", "the file of vrid calibrate", bench_topic},
        {"result", "what vrid solve writes", result_topic}};
    return table;
}

} // namespace vrid
