#include "solver/cooling/mould.hpp"

#include <catch2/catch.hpp>

#include "mesh/board/rest_shape.hpp"

using namespace vrid;

namespace {

// Contact stations at +- 0.6 m, tips at +- 0.8 m.
Board with_rest_shape() {
    Board board;
    board.planform =
        polygon_planform({{-0.8, -0.15}, {0.8, -0.15}, {0.8, 0.15}, {-0.8, 0.15}}, 1.2);
    board.rest_shape =
        Profile{Interpolation::linear, {-0.8, -0.6, 0, 0.6, 0.8}, {0.04, 0.002, 0.007, 0, 0.05}};
    return board;
}

} // namespace

TEST_CASE("a mould is the wanted height less what the press adds, station by station") {
    Board board = with_rest_shape();
    CooledShape shape;
    shape.axis = {{-0.7, -1e-3}, {0.3, 2e-3}};
    const auto line = mould_line(board, shape);
    REQUIRE(line.size() == 2);
    CHECK(line[0].x == -0.7);
    CHECK(line[0].wanted == Approx(0.021));
    CHECK(line[0].change == -1e-3);
    CHECK(line[0].mould == Approx(0.022));
    CHECK(line[1].mould == Approx(0.0035 - 2e-3));
    board.rest_shape.reset();
    CHECK(mould_line(board, shape)[1].mould == Approx(-2e-3));
    CHECK(wanted_camber(board) == 0);
}

TEST_CASE("a mould's line goes straight on beyond the last height, as the board's surface does") {
    Board board = with_rest_shape();
    board.rest_shape->x.back() = 0.75;
    board.rest_shape->x.front() = -0.7;
    const auto rest = rest_shape(board);
    CooledShape shape;
    shape.axis = {{-0.8, 0}, {0.8, 1e-3}};
    const auto line = mould_line(board, shape);
    CHECK(line[0].wanted == Approx(0.04 + 0.1 * 0.038 / 0.1)); // linear heights
    CHECK(line[1].wanted == Approx(0.05 + 0.05 * 0.05 / 0.15));
    CHECK(line[1].mould == Approx(rest->z(0.8) - 1e-3));
    board.cure = Cure{};
    board.cure->mould = board.rest_shape;
    CHECK(mould_rise(board, "nose_height") ==
          Approx(rest->z(0.8) + 0.002 * 0.2 / 1.2)); // above the line through the contacts
}

TEST_CASE("camber and tips are told above the line through the contact stations") {
    Board board = with_rest_shape();
    CHECK(wanted_camber(board) == Approx(0.007 - 0.001)); // between 2 mm and 0
    board.cure = Cure{};
    board.cure->mould = board.rest_shape;
    CHECK(mould_rise(board, "camber") == Approx(0.006));
    CHECK(mould_rise(board, "camber_edge") == Approx(0.006));
    // the line falls by 2 mm over 1.2 m, on and on
    CHECK(mould_rise(board, "nose_height") == Approx(0.05 + 0.002 * 0.2 / 1.2));
    CHECK(mould_rise(board, "tail_height") == Approx(0.04 - 0.002 * 1.4 / 1.2));
}
