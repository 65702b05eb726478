// What `vrid check` prints, against rows written by hand from figures written by hand.
#include "io/write/board_text.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/degree.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

BoardFigures hand_made() {
    BoardFigures figures;
    figures.name = "plank";
    figures.outline.length = 1.5704;
    figures.outline.running_length = 1.135;
    figures.outline.tail_width = 0.2861;
    figures.outline.waist_width = 0.25;
    figures.outline.nose_width = 0.2912;
    figures.outline.waist_x = -0.01853;
    figures.outline.sidecut_radius = {7.654, 7.654};
    figures.outline.area = 0.40266;
    figures.mass = {3.2, 0.0123, -0.0021, {{"poplar", 1.2}, {"steel", 0.4567}}};
    StationFigures station;
    station.label = "waist";
    station.section = {-0.0185, 0.25, 6.8e-3, 9.712e-3, 2.3456, 345.678, 98.7654};
    station.layers = {{"base", "uhmwpe", 0, 1.2e-3, {{{-0.125, 0.125}}}, true},
                      {"ribbon", "carbon", 5 * degree, 0.32e-3, {{{0.045, 0.075}}}, false},
                      {"ribbon", "carbon", -22.5 * degree, 0.32e-3, {{{-0.075, -0.045}}}, false}};
    figures.stations = {station};
    return figures;
}

std::string printed_board(const BoardFigures& figures) {
    return board_text(figures, {});
}

LimitVerdict verdict(const std::string& name, const Limit& limit, const BenchQuantity& found) {
    LimitVerdict one;
    one.name = name;
    one.limit = limit;
    one.found = Measured{found};
    return one;
}

} // namespace

TEST_CASE("the outline is printed in mm at its stations, its radius in m, its area in m2") {
    BoardFigures figures = hand_made();
    std::string text = printed_board(figures);
    CHECK(text_rows(text).front() == "plank");
    CHECK(text_row(text, "length") == "length 1570.4 mm");
    CHECK(text_row(text, "running length") == "running length 1135.0 mm");
    CHECK(text_row(text, "tail width") == "tail width 286.1 mm at x = -567.5");
    CHECK(text_row(text, "waist width") == "waist width 250.0 mm at x = -18.5");
    CHECK(text_row(text, "nose width") == "nose width 291.2 mm at x = 567.5");
    CHECK(text_row(text, "sidecut radius") == "sidecut radius 7.65 m");
    CHECK(text_row(text, "area") == "area 0.4027 m2");
    CHECK_THAT(text, !Contains("edge contact") && !Contains("drawn") && !Contains("rest shape"));
    figures.outline.edge_contact[1] = {-0.5, 0.55};
    figures.outline.sidecut_radius = {7.654, HUGE_VAL};
    text = printed_board(figures);
    CHECK(text_row(text, "edge contact") ==
          "edge contact, right 1050.0 mm from x = -500.0 to 550.0");
    CHECK(text_row(text, "sidecut radius, left") == "sidecut radius, left 7.65 m");
    CHECK(text_row(text, "sidecut radius, right") == "sidecut radius, right straight");
    figures.outline.sidecut_radius = {HUGE_VAL, HUGE_VAL};
    CHECK(text_row(printed_board(figures), "sidecut radius") == "sidecut radius straight");
    figures.outline.sidecut_radius = {HUGE_VAL, 9};
    text = printed_board(figures);
    CHECK(text_row(text, "sidecut radius, left") == "sidecut radius, left straight");
    CHECK(text_row(text, "sidecut radius, right") == "sidecut radius, right 9.00 m");
}

TEST_CASE("a drawn outline tells how far its points were moved, if they might be") {
    BoardFigures figures = hand_made();
    figures.outline.drawn = DrawnFit{212, 0.0005, 0.0003456, -0.321};
    CHECK(text_row(printed_board(figures), "drawn points") == "drawn points 212");
    CHECK(text_row(printed_board(figures), "largest move") ==
          "largest move 0.35 mm at x = -321.0, of up to 0.50");
    figures.outline.drawn->tolerance = 0;
    CHECK(text_row(printed_board(figures), "largest move") == "largest move 0.35 mm not smoothed");
}

TEST_CASE("a rest shape is told by its smallest radius and how much its tips come nearer") {
    BoardFigures figures = hand_made();
    figures.rest = RestFigures{{0.4321, 0.61}, -0.77, 0.79, 0.0034, 0.0056};
    const std::string text = printed_board(figures);
    CHECK_THAT(text, Contains("  smallest radius of the rest shape 432 mm at x = 610.0 mm\n"));
    CHECK_THAT(text, Contains("  on the floor the tail ends 3.4 mm and the nose 5.6 mm short of "
                              "the flat blank\n"));
    figures.rest->radius.radius = 0;
    CHECK_THAT(printed_board(figures), !Contains("smallest radius"));
}

TEST_CASE("mass is shared out in percent; a balance point beside the axis has its y") {
    BoardFigures figures = hand_made();
    std::string text = printed_board(figures);
    CHECK(text_row(text, "poplar") == "poplar 1.200 37.5");
    CHECK(text_row(text, "steel") == "steel 0.457 14.3");
    CHECK(text_row(text, "whole board") ==
          "whole board 3.2000 +- 0.0004 kg, balance point at x = 12.3, y = -2.1 mm");
    figures.mass.y = -4e-5;
    CHECK_THAT(printed_board(figures), Contains("balance point at x = 12.3 mm\n"));
}

TEST_CASE("a small piece has four digits of its mass and area, not zeros") {
    BoardFigures figures = hand_made();
    figures.outline.area = 0.0009;
    figures.mass = {0.0022041, 0, 0, {{"poplar", 0.00121}, {"epoxy", 0.00006}}};
    figures.stations[0].section.mass_per_length = 0.0367349;
    const std::string text = printed_board(figures);
    CHECK(text_row(text, "area") == "area 0.0009000 m2");
    CHECK(text_row(text, "poplar") == "poplar 0.001210 54.9");
    CHECK(text_row(text, "epoxy") == "epoxy 0.000060 2.7");
    CHECK_THAT(text_row(text, "waist -18"), Contains(" 0.03673 "));
}

TEST_CASE("a station has its section in a row and its layers from the top down") {
    const BoardFigures figures = hand_made();
    const std::string text = printed_board(figures);
    CHECK(text_row(text, "waist -18") == "waist -18.5 250.0 6.80 9.71 2.346 345.7 98.77");
    CHECK(text_rows_between(text, "waist, x = -18.5 mm", "limit") ==
          std::vector<std::string>{"layer, from the top material angle thickness across the width",
                                   "[deg] [mm] [y in mm]", "ribbon carbon -22.5 0.320 -75 to -45",
                                   "ribbon carbon 5 0.320 45 to 75", "base uhmwpe 0 1.200 all"});
    BoardFigures asked = hand_made();
    asked.stations[0].label.clear();
    CHECK_THAT(printed_board(asked), Contains("\nx = -18.5 mm\n"));
}

TEST_CASE("a limit's row has its bounds, what was found with its bar, and the verdict") {
    Verdicts verdicts{verdict("nose-twist", {3.5, 4.25}, {3.456, 0.032, "N m/deg"}),
                      verdict("mass", {{}, 3.4}, {3.3999, 0.0004, "kg"}),
                      verdict("sidecut_radius", {7, {}}, {HUGE_VAL, 0, ""}),
                      verdict("full-twist", {100, {}}, {120, HUGE_VAL, "N m/deg"})};
    verdicts[0].exceeded = true;
    verdicts[1].unresolved = true;
    verdicts[3].unresolved = true;
    LimitVerdict unknown;
    unknown.name = "edge peak";
    unknown.limit.max = 0.0333;
    verdicts.push_back(unknown);
    const std::string text = limits_text(verdicts);
    CHECK(text_row(text, "nose-twist") == "nose-twist 3.5 3.46 +- 0.04 4.25 N m/deg EXCEEDED");
    CHECK(text_row(text, "mass") ==
          "mass 3.3999 +- 0.0004 3.4 kg within, by less than the error bar");
    CHECK(text_row(text, "sidecut_radius") == "sidecut_radius 7 straight m within");
    CHECK(text_row(text, "full-twist") ==
          "full-twist 100 120.0 no bar N m/deg within, no bar known");
    CHECK(text_row(text, "edge peak") == "edge peak 0.0333 not computed");
    Verdicts close{verdict("length", {{}, 1570.25}, {1570.3, 0, "mm"}),
                   verdict("area", {0.40181, {}}, {0.401812, 0, "m2"})};
    close[0].exceeded = true;
    CHECK(text_row(limits_text(close), "length") == "length 1570.30 1570.25 mm EXCEEDED");
    close[0].limit.max = 1570;
    CHECK(text_row(limits_text(close), "length") == "length 1570.3 1570 mm EXCEEDED");
    CHECK(text_row(limits_text(close), "area") == "area 0.40181 0.4018 m2 within");
    CHECK(limits_text({}).empty());
    CHECK_THAT(
        board_text(hand_made(), verdicts),
        Catch::EndsWith("\n\n" + text +
                        "\n  not computed: judged by vrid solve, edge, strength or batch\n"));
    verdicts.pop_back();
    CHECK_THAT(board_text(hand_made(), verdicts), Catch::EndsWith("\n\n" + limits_text(verdicts)));
}
