#include "io/toml/board_keys.hpp"

#include <map>
#include <regex>
#include <set>
#include <string>

#include <catch2/catch.hpp>

#include "io/batch/job.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

std::string with(const std::string& from, const std::string& to,
                 std::string text = demo_board_text()) {
    const auto at = text.find(from);
    INFO(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

// The keys that the reader lists where it meets one that it does not know.
std::set<std::string> listed(const std::string& text) {
    const std::string all = complaint_of([&] { (void)read_text_board(text); });
    const std::string mark = "zzz: unknown key; accepted: ";
    const auto at = all.find(mark);
    INFO(text << "\n" << all);
    REQUIRE(at != std::string::npos);
    const std::string list = all.substr(at + mark.size(), all.find('\n', at) - at - mark.size());
    const std::regex name("[^, ]+");
    return {std::sregex_token_iterator(list.begin(), list.end(), name),
            std::sregex_token_iterator()};
}

// Where an unknown key goes in the demo board, by table: the text before which it stands.
const std::multimap<std::string, std::string> places{
    {"", "name = \"Demo 157\""},
    {"planform", "running_length_mm"},
    {"core", "interpolation ="},
    {"core.strips", "material = \"poplar\", width_mm = 36"},
    {"core.strips_left", "material = \"poplar\", width_mm = 36"},
    {"core.strips_right", "material = \"poplar\", width_mm = 36"},
    {"layer", "material = \"uhmwpe\""},
    {"layer.zone", "x_mm = [250, 640]"},
    {"layer.zones", "x_mm = [250, 640]"},
    {"fabric", "resin ="},
    {"fabric.plies", "fibre = \"e-glass\", angle_deg = 0"},
    {"material", "note = \"a ply"},
    {"material", "E_GPa = 2"},
    {"material.source", "all ="},
    {"edge", "material = \"steel\""},
    {"edge.flange", "width_mm = 6.5"},
    {"sidewall", "width_mm = 8\n"},
    {"tip_spacer", "x_mm = [-660, 665]"},
    {"stance", "width_mm = 560"},
    {"mass_only", "resin_gsm"},
    {"rest_shape", "z_mm"},
    {"cure", "stress_free_C ="},
    {"limits", "max = 3.4"},
};

// The demo board, with a table that stands instead of another if it has not that one.
std::string text_with(const std::string& table) {
    const std::string other = "strips = [\n";
    const std::string half = " = [{ material = \"ash\", width_mm = 18 }]\n";
    if (table == "core.strips_left") {
        return with(other, "strips_right" + half + "strips_left = [\n");
    }
    if (table == "core.strips_right") {
        return with(other, "strips_left" + half + "strips_right = [\n");
    }
    if (table == "cure") {
        return demo_board_text() + "\n[cure]\nstress_free_C = 85\n";
    }
    if (table == "layer.zones") {
        const std::string zone = "{ x_mm = [250, 640], y_mm = [20, 70] }";
        return with("zone = " + zone, "zones = [" + zone + "]");
    }
    return demo_board_text();
}

} // namespace

TEST_CASE("the reader asks for the keys of the table and for no others") {
    std::map<std::string, std::set<std::string>> asked;
    for (const auto& [table, before] : places) {
        const bool braces = before.find('[') == 0 || table.starts_with("core.strips") ||
                            table.starts_with("layer.zone") || table == "fabric.plies" ||
                            table == "edge.flange" || table == "limits";
        asked[table].merge(
            listed(with(before, (braces ? "zzz = 1, " : "zzz = 1\n") + before, text_with(table))));
    }
    std::map<std::string, std::set<std::string>> known;
    for (const BoardKey& row : board_keys()) {
        known[std::string(row.table)].emplace(row.key);
    }
    // a source may have every key of its material beside `all`
    for (const std::string& key : known["material"]) {
        asked["material.source"].erase(key);
    }
    for (const auto& [table, keys] : known) {
        INFO("[" << table << "]");
        CHECK(asked[table] == keys);
    }
    CHECK(asked.size() == known.size());
}

TEST_CASE("what the table says of a silent file is what the reader does") {
    // a text of the demo board after which the key may stand
    const std::map<std::string, std::string> lines{{"planform", "running_length_mm = 1135"},
                                                   {"core", "[core]"},
                                                   {"layer", "material = \"uhmwpe\""},
                                                   {"edge.flange", "width_mm = 6.5"},
                                                   {"stance", "width_mm = 560"},
                                                   {"mass_only", "[mass_only]"},
                                                   {"cure", "[cure]"},
                                                   {"material", "note = \"a ply of our own\""}};
    int tried = 0;
    for (const BoardKey& row : board_keys()) {
        const bool required = row.otherwise.find_first_of(" r") != std::string::npos;
        if (row.otherwise.empty() || required || row.key == "inserts_per_foot") {
            continue; // inserts have a mass and cannot be said alone
        }
        const std::string key(row.key);
        const std::string table(row.table);
        const bool inside = table == "edge.flange";
        std::string silent = text_with(table == "cure" ? table : "");
        if (table != "layer") { // the base has none of its keys
            silent = std::regex_replace(
                silent, std::regex((inside ? ", " + key + " = [0-9.]+" : "\n" + key + " = [^\n]*")),
                "");
        }
        const std::string& after = lines.at(table);
        const std::string said =
            with(after, after + (inside ? ", " : "\n") + key + " = " + std::string(row.otherwise),
                 silent);
        INFO(table << " " << said);
        CHECK(resolved_text(read_text_board(silent)) == resolved_text(read_text_board(said)));
        ++tried;
    }
    CHECK(tried == 22);
}
