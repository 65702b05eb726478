// Figures of boards whose outline and section have closed forms.
#include "io/write/board_figures.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/io/write/solved_example.hpp"

using namespace vrid;

namespace {

// Straight sides from 300 mm width at the tail (x = -0.6) to 240 at x = 0.1 and 280 at the nose.
Planform waisted(double lift = 0) {
    return polygon_planform({{-0.6, -0.15 + lift},
                             {0.1, -0.12 + lift},
                             {0.7, -0.14 + lift},
                             {0.7, 0.14 + lift},
                             {0.1, 0.12 + lift},
                             {-0.6, 0.15 + lift}},
                            1.0);
}

Board steel_sheet() {
    Board board = tests::solved_example().board; // 2 mm of steel, 1000 mm by 200 mm
    return board;
}

std::vector<std::string> labels_of(const BoardFigures& figures) {
    std::vector<std::string> labels;
    for (const StationFigures& station : figures.stations) {
        labels.push_back(station.label);
    }
    return labels;
}

} // namespace

TEST_CASE(
    "an outline's widths are those of its contact stations, its waist where it is narrowest") {
    Board board;
    board.planform = waisted();
    board.planform.edge_contact[1] = {-0.45, 0.5};
    const OutlineFigures figures = outline_figures(board);
    CHECK(figures.length == Approx(1.3));
    CHECK(figures.running_length == 1.0);
    CHECK(figures.tail_width == Approx(0.3 - 0.06 * 0.1 / 0.7));
    CHECK(figures.nose_width == Approx(0.24 + 0.04 * 0.4 / 0.6));
    CHECK(figures.waist_x == Approx(0.1).margin(1e-6));
    CHECK(figures.waist_width == Approx(0.24));
    CHECK(figures.area == Approx(0.27 * 0.7 + 0.26 * 0.6));
    CHECK_FALSE(figures.edge_contact[0]);
    CHECK(*figures.edge_contact[1] == std::array<double, 2>{-0.45, 0.5});
    board.planform = waisted(0.03); // moved sideways
    const OutlineFigures moved = outline_figures(board);
    CHECK(moved.waist_x == Approx(0.1).margin(1e-6));
    CHECK(moved.waist_width == Approx(0.24));
    CHECK(moved.area == Approx(figures.area));
}

TEST_CASE(
    "widths are those from side to side, as a caliper reads them, also where a swallow tail's "
    "notch reaches into the running length") {
    Board board;
    board.planform = polygon_planform({{-0.7, -0.14},
                                       {0, -0.12},
                                       {0.7, -0.15},
                                       {0.7, 0.15},
                                       {0, 0.12},
                                       {-0.7, 0.14},
                                       {-0.7, 0.05},
                                       {-0.45, 0},
                                       {-0.7, -0.05}},
                                      1.1);
    const OutlineFigures figures = outline_figures(board);
    CHECK(figures.tail_width == Approx(2 * (0.12 + 0.02 * 0.55 / 0.7)));
    CHECK(figures.nose_width == Approx(2 * (0.12 + 0.03 * 0.55 / 0.7)));
    CHECK(figures.waist_width == Approx(0.24));
    CHECK(std::abs(figures.waist_x) < 1e-6);
}

TEST_CASE("a coupon of one width has its waist in the middle and straight sides") {
    const OutlineFigures figures = outline_figures(steel_sheet());
    CHECK(figures.waist_x == 0);
    CHECK(figures.tail_width == Approx(0.2));
    CHECK(figures.nose_width == Approx(0.2));
    CHECK(std::isinf(figures.sidecut_radius[0]));
    CHECK(std::isinf(figures.sidecut_radius[1]));
    CHECK(figures.area == Approx(0.2));
}

TEST_CASE("the usual stations are contacts, waist and feet from tail to nose; others as asked") {
    Board board = steel_sheet();
    board.planform = waisted();
    board.layers[0].thickness = 2e-3;
    CHECK(labels_of(board_figures(board, {})) ==
          std::vector<std::string>{"tail contact", "waist", "nose contact"});
    board.stance.emplace().width = 0.56;
    board.stance->setback = 0.05;
    const BoardFigures figures = board_figures(board, {});
    CHECK(labels_of(figures) == std::vector<std::string>{"tail contact", "rear foot", "waist",
                                                         "front foot", "nose contact"});
    CHECK(figures.stations[1].section.x == Approx(-0.33));
    CHECK(figures.stations[3].section.x == Approx(0.23));
    const BoardFigures asked = board_figures(board, {0.2, -0.1});
    CHECK(labels_of(asked) == std::vector<std::string>{"", ""});
    CHECK(asked.stations[0].section.x == 0.2);
    CHECK(asked.stations[1].section.x == -0.1);
    CHECK(asked.stations[0].section.width == Approx(0.24 + 0.04 * 0.1 / 0.6));
}

TEST_CASE("of a board that is narrowest at a contact station the middle is shown too") {
    Board board = steel_sheet();
    board.layers[0].thickness = 2e-3;
    board.planform = polygon_planform(
        {{-0.6, -0.1}, {0, -0.15}, {0.6, -0.1}, {0.6, 0.1}, {0, 0.15}, {-0.6, 0.1}}, 1.0);
    const BoardFigures figures = board_figures(board, {});
    CHECK(labels_of(figures) ==
          std::vector<std::string>{"tail contact", "waist", "middle", "nose contact"});
    CHECK(figures.stations[2].section.width == Approx(0.3).epsilon(1e-4));
}

TEST_CASE("a sheet's station has its mass a metre, E h^3 b / 12 and one layer over the width") {
    const BoardFigures figures = board_figures(steel_sheet(), {0.1});
    CHECK(figures.name == "plate");
    CHECK(figures.hash == "0123abcd");
    CHECK(figures.mass.mass == Approx(7850 * 0.2 * 2e-3).epsilon(1e-4));
    CHECK_FALSE(figures.rest);
    const StationFigures& station = figures.stations.at(0);
    CHECK(station.section.mass_per_length == Approx(7850 * 0.2 * 2e-3));
    CHECK(station.section.EI == Approx(200e9 * 0.2 * 8e-9 / 12).epsilon(1e-3));
    CHECK(station.section.thickness == Approx(2e-3));
    REQUIRE(station.layers.size() == 1);
    CHECK(station.layers[0].name == "sheet");
    const Quantity mass = mass_quantity(figures.mass);
    CHECK(mass.error == Approx(1e-4 * mass.value));
    CHECK(mass.unit == Unit::mass);
}

TEST_CASE("a rest shape that rises 3 in 5 brings both tips nearer by a fifth of their distance") {
    Board board = steel_sheet();
    board.rest_shape = Profile{Interpolation::smooth, {-0.5, 0, 0.5}, {0, 0.3, 0.6}};
    const BoardFigures figures = board_figures(board, {0});
    REQUIRE(figures.rest);
    CHECK(figures.rest->nose_place == Approx(0.4)); // 0.5 m on the blank
    CHECK(figures.rest->tail_place == Approx(-0.4));
    CHECK(figures.rest->nose_shorter == Approx(0.1));
    CHECK(figures.rest->tail_shorter == Approx(0.1));
}

TEST_CASE("a rest shape turned up at the nose alone is tightest there and shortens nothing else") {
    Board board = steel_sheet();
    board.rest_shape =
        Profile{Interpolation::smooth, {-0.5, 0, 0.2, 0.35, 0.5}, {0, 0, 0, 0.01, 0.06}};
    const RestFigures rest = *board_figures(board, {0}).rest;
    CHECK(rest.nose_shorter > 0.005);
    CHECK(rest.tail_shorter == Approx(0).margin(1e-9));
    CHECK(rest.tail_place == Approx(-0.5));
    CHECK(rest.radius.x > 0.2);
    CHECK(rest.radius.radius > 0.1);
    CHECK(rest.radius.radius < 1);
}
