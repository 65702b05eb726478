// Values that move lines, written into the text of a file: only their own characters change.
#include <catch2/catch.hpp>

#include "io/design/edit_board.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string edited_demo(const std::string& path, double value) {
    return edit_board({demo_board_text(), "board.toml", ""}, shipped_library(),
                      {{path, value, ""}});
}

std::string demo_with(const std::string& from, const std::string& to) {
    std::string text = demo_board_text();
    REQUIRE(text.find(from) != std::string::npos);
    return text.replace(text.find(from), from.size(), to);
}

} // namespace

TEST_CASE("a line's value is written over its own number, in a table, an array, a pair or braces") {
    const std::vector<std::array<std::string, 3>> edits{
        {"planform.running_length_mm=1140", "running_length_mm = 1135", "running_length_mm = 1140"},
        {"planform.waist_x_mm=-20", "waist_x_mm = -18.5", "waist_x_mm = -20"},
        {"planform.nose_fullness=0.5", "nose_fullness = 0.6", "nose_fullness = 0.5"},
        {"core.station_mm[2]=-300", "[-292.5, 7.1]", "[-300, 7.1]"},
        {"rest_shape.station_mm[1]=-560", "[-567.5, 0], [0, 4.8]", "[-560, 0], [0, 4.8]"},
        {"edge.width_mm=2.2", "width_mm = 2.0\n", "width_mm = 2.2\n"},
        {"edge.x_mm[1]=590", "x_mm = [-600, 600]\nflange", "x_mm = [-600, 590]\nflange"},
        {"edge.flange.width_mm=6", "{ width_mm = 6.5", "{ width_mm = 6"},
        {"sidewall.width_mm=8.5", "width_mm = 8\n", "width_mm = 8.5\n"},
        {"stance.setback_mm=15", "setback_mm = 12.5", "setback_mm = 15"},
        {"stance.foot_width_mm=111", "foot_width_mm = 110", "foot_width_mm = 111"},
        {"tip_spacer.x_mm[0]=-655", "x_mm = [-660, 665]", "x_mm = [-655, 665]"},
        {"layer.nose patch.zone.x_mm[0]=260", "x_mm = [250, 640]", "x_mm = [260, 640]"},
        {"layer.nose patch.zone.y_mm[1]=75", "y_mm = [20, 70]", "y_mm = [20, 75]"},
        {"layer.rubber.zone.outline_mm[1]=27", "outline_mm = [0, 25]", "outline_mm = [0, 27]"}};
    for (const auto& [change, from, to] : edits) {
        CAPTURE(change);
        const auto equals = change.find('=');
        CHECK(edited_demo(change.substr(0, equals), std::stod(change.substr(equals + 1))) ==
              demo_with(from, to));
    }
}

TEST_CASE("of several zones the one that is meant is written; an absent key is added") {
    const std::string zone = "zone = { x_mm = [250, 640], y_mm = [20, 70] }";
    const std::string zones = "zones = [{ x_mm = [250, 340], y_mm = [20, 70] }, "
                              "{ x_mm = [400, 640], y_mm = [21, 71] }]";
    const std::string text = demo_with(zone, zones);
    const auto edit = [&](const std::string& path, double value) {
        return edit_board({text, "board.toml", ""}, shipped_library(), {{path, value, ""}});
    };
    CHECK_THAT(edit("layer.nose patch.zones[1].x_mm[0]", 410),
               Contains("{ x_mm = [250, 340], y_mm = [20, 70] }, { x_mm = [410, 640], y_mm = [21, "
                        "71] }"));
    CHECK_THAT(edit("layer.nose patch.zones[0].y_mm[1]", 72),
               Contains("{ x_mm = [250, 340], y_mm = [20, 72] }, { x_mm = [400, 640], y_mm = [21, "
                        "71] }"));
    const std::string silent = demo_with("setback_mm = 12.5\n", "");
    const std::string added = edit_board({silent, "board.toml", ""}, shipped_library(),
                                         {{"stance.setback_mm", 15.0, ""}});
    CHECK(added.size() == silent.size() + std::string("setback_mm = 15\n").size());
    CHECK(read_text_board(added).stance->setback == Approx(0.015));
}

TEST_CASE("what is changed of an included file is written as of that, not of the library") {
    const TestFolder folder("edit-included");
    (void)folder.write("ours.toml", "[material.ours]\nE_GPa = 9\nnu = 0.3\ndensity_kgm3 = 450\n");
    const std::string text = "include = \"ours.toml\"\n" + demo_with("\"polyamide\"", "\"ours\"");
    const std::string edited = edit_board({text, "board.toml", folder.path()}, shipped_library(),
                                          {{"material.ours.E_GPa", 10.0, ""}});
    CHECK_THAT(edited, Contains("# ours of the included file with E_GPa 10 instead of 9;"));
}
