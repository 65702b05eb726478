// What `vrid check --json` prints, against values written by hand.
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "io/write/board_text.hpp"
#include "io/write/json_parts.hpp"
#include "tests/plain_json.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

PlainJson plain(double value, const char* unit, double error = 0) {
    return {{"value", value}, {"unit", unit}, {"error", error}};
}

PlainJson json_of_board(const BoardFigures& figures, const Verdicts& verdicts = {}) {
    const auto all = PlainJson::parse(boards_json({figures}, {verdicts}));
    CHECK(all["format"] == 1);
    return all["boards"].at(0);
}

} // namespace

TEST_CASE("a board's document has outline, mass and what each material weighs") {
    BoardFigures figures;
    figures.name = "plank";
    figures.hash = "0123abcd";
    figures.outline.length = 1.57;
    figures.outline.running_length = 1.135;
    figures.outline.tail_width = 0.286;
    figures.outline.waist_width = 0.25;
    figures.outline.nose_width = 0.291;
    figures.outline.waist_x = -0.0185;
    figures.outline.sidecut_radius = {7.5, 8.5};
    figures.outline.area = 0.4;
    figures.outline.edge_contact[0] = {-0.5, 0.55};
    figures.mass = {3.2, 0.0125, -5.6e-16, {{"poplar", 1.2}, {"steel", 0.4}}};
    figures.set = {"mass_only.resin_gsm=300"};
    figures.warnings = {{"/a/folder/board.toml:12:3", "odd"}, {"", "odder"}};
    const auto one = json_of_board(figures);
    CHECK(one["name"] == "plank");
    CHECK(one["hash"] == "0123abcd");
    CHECK(one["set"] == PlainJson{"mass_only.resin_gsm=300"});
    CHECK(one["outline"] ==
          PlainJson{{"length", plain(1570, "mm")},
                    {"running_length", plain(1135, "mm")},
                    {"tail_width", plain(286, "mm")},
                    {"waist_width", plain(250, "mm")},
                    {"nose_width", plain(291, "mm")},
                    {"waist_x", plain(-18.5, "mm")},
                    {"sidecut_radius", {{"left", plain(7.5, "m")}, {"right", plain(8.5, "m")}}},
                    {"area", plain(0.4, "m2")},
                    {"edge_contact",
                     {{"left", {{"tail", plain(-500, "mm")}, {"nose", plain(550, "mm")}}}}}});
    CHECK(one["mass"] == plain(3.2, "kg", 0.00032));
    CHECK(one["balance_point"] == PlainJson{{"x", plain(12.5, "mm")}, {"y", plain(0, "mm")}});
    CHECK(one["mass_by_material"] ==
          PlainJson{{"poplar", plain(1.2, "kg")}, {"steel", plain(0.4, "kg")}});
    CHECK(one["warnings"] == PlainJson{"board.toml:12:3: odd", "odder"});
    CHECK_FALSE(one.contains("rest_shape"));
    CHECK_FALSE(json_of_board({}).contains("set"));
}

TEST_CASE("a station's document has its section and layers upwards with where they lie") {
    BoardFigures figures;
    StationFigures station;
    station.label = "waist";
    station.section = {-0.0185, 0.25, 6.8e-3, 9.7e-3, 2.345, 345.6, 98.7};
    station.layers = {{"base", "uhmwpe", 0, 1.2e-3, {{{-0.125, 0.125}}}, true},
                      {"ribbon",
                       "carbon",
                       std::numbers::pi / 8,
                       0.3e-3,
                       {{{-0.07500000001, -0.045}}, {{0.045, 0.075}}},
                       false}};
    figures.stations = {station};
    const auto one = json_of_board(figures)["stations"].at(0);
    const auto layer = [](const char* name, const char* material, double angle, double thickness,
                          const PlainJson& y) {
        return PlainJson{{"name", name},
                         {"material", material},
                         {"angle", plain(angle, "deg")},
                         {"thickness", plain(thickness, "mm")},
                         {"y_mm", y}};
    };
    CHECK(one == PlainJson{{"label", "waist"},
                           {"x", plain(-18.5, "mm")},
                           {"width", plain(250, "mm")},
                           {"core_thickness", plain(6.8, "mm")},
                           {"thickness", plain(9.7, "mm")},
                           {"mass_per_length", plain(2.345, "kg/m")},
                           {"EI", plain(345.6, "N m2")},
                           {"GJ", plain(98.7, "N m2")},
                           {"layers",
                            {layer("base", "uhmwpe", 0, 1.2, {{-125, 125}}),
                             layer("ribbon", "carbon", 22.5, 0.3, {{-75, -45}, {45, 75}})}}});
}

TEST_CASE("a rest shape, a drawn outline and straight sides have keys of their own") {
    BoardFigures figures;
    figures.outline.sidecut_radius = {HUGE_VAL, 8.5};
    figures.outline.drawn = DrawnFit{212, 0.0005, 0.0003, -0.321};
    figures.rest = RestFigures{{0.432, 0.61}, -0.77, 0.79, 0.0034, 0.0056};
    const auto one = json_of_board(figures);
    CHECK(one["rest_shape"] == PlainJson{{"smallest_radius", plain(432, "mm")},
                                         {"smallest_radius_x", plain(610, "mm")},
                                         {"tail_shorter", plain(3.4, "mm")},
                                         {"nose_shorter", plain(5.6, "mm")}});
    CHECK(one["outline"]["drawn"] == PlainJson{{"points", 212},
                                               {"tolerance", plain(0.5, "mm")},
                                               {"largest_move", plain(0.3, "mm")},
                                               {"largest_move_x", plain(-321, "mm")}});
    CHECK(one["outline"]["sidecut_radius"]["left"]["value"].is_null());
    CHECK_THAT(one["outline"]["sidecut_radius"]["left"]["reason"].get<std::string>(),
               Catch::StartsWith("straight"));
    CHECK(one["outline"]["sidecut_radius"]["right"] == plain(8.5, "m"));
}

TEST_CASE("each board's document has its own limits") {
    BoardFigures first;
    first.name = "a";
    BoardFigures second;
    second.name = "b";
    LimitVerdict verdict;
    verdict.name = "mass";
    verdict.limit.max = 3.4;
    verdict.found = Measured{BenchQuantity{3.5, 0.001, "kg"}};
    verdict.exceeded = true;
    const auto all = PlainJson::parse(boards_json({first, second}, {{}, {verdict}}));
    REQUIRE(all["boards"].size() == 2);
    CHECK(all["boards"][0]["name"] == "a");
    CHECK(all["boards"][0]["limits"].empty());
    const auto& limit = all["boards"][1]["limits"]["mass"];
    CHECK(limit["max"] == 3.4);
    CHECK(limit["value"] == 3.5);
    CHECK(limit["unit"] == "kg");
    CHECK(limit["exceeded"] == true);
    CHECK(limit["resolved"] == true);
}
