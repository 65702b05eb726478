#include "mesh/board/board_stations.hpp"

#include <catch2/catch.hpp>

using vrid::board_stations;

TEST_CASE("stations of a board begin at its tail, end at its nose and name each place once") {
    const auto planform = vrid::rectangle_planform(0.299999999999, 0.04);
    const double end = 0.299999999999 / 2;
    // an end given by a number that is not quite the board's, from outside and inside
    const auto x = board_stations(planform, {0.1, -0.15, 0.15, -0.15 + 4e-7, 0.1 + 1e-10, 0.4, -1});
    CHECK(x == std::vector<double>{-end, 0.1, end});
    CHECK(board_stations(planform, {}) == std::vector<double>{-end, end});
}

TEST_CASE("at a jump one looks on the side of the middle, at an end on the board") {
    const auto planform = vrid::rectangle_planform(0.3, 0.04);
    CHECK(vrid::beside(planform, 0.1) < 0.1);
    CHECK(vrid::beside(planform, -0.1) > -0.1);
    CHECK(vrid::beside(planform, 0) == 0);
    CHECK(vrid::beside(planform, 0.15 + 1e-10) < 0.15);
    CHECK(vrid::beside(planform, -0.15) > -0.15);
    CHECK(vrid::beside(planform, 0.16) == 0.16); // off the board
}
