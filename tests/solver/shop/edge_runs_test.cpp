#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "solver/shop/core_blank.hpp"

using namespace vrid;

namespace {

constexpr double half_turn = std::numbers::pi;

// A stadium: straight sides 1 m long, half circles of 0.15 m at both ends, no corner.
Board stadium(const std::optional<Range>& x) {
    Board board;
    OutlinePiece nose, tail;
    nose.radius = tail.radius = 0.15;
    nose.centre = {0.5, 0};
    nose.angle_from = -half_turn / 2;
    nose.angle_to = half_turn / 2;
    tail.centre = {-0.5, 0};
    tail.angle_from = half_turn / 2;
    tail.angle_to = 1.5 * half_turn;
    const auto straight = [](double from, double y, double to) {
        OutlinePiece piece;
        for (int k = 0; k < 4; ++k) {
            piece.control[static_cast<std::size_t>(k)] = {from + (to - from) * k / 3, y};
        }
        return piece;
    };
    board.planform.outline = {straight(-0.5, -0.15, 0.5), nose, straight(0.5, 0.15, -0.5), tail};
    board.edge = Edge{"steel", 2e-3, x, std::nullopt};
    return board;
}

} // namespace

TEST_CASE("an edge all round a stadium has its perimeter, one whole turn and its radius") {
    const auto runs = edge_runs(stadium(std::nullopt));
    REQUIRE(runs.size() == 1);
    CHECK(runs[0].length == Approx(2 + 2 * half_turn * 0.15).epsilon(1e-6));
    CHECK(runs[0].turn == Approx(2 * half_turn).epsilon(1e-6));
    CHECK(runs[0].tightest == Approx(0.15).epsilon(1e-6));
    CHECK(std::abs(runs[0].tightest_x) >= 0.5 - 1e-9);
    CHECK(runs[0].corners == 0);
}

TEST_CASE(
    "between two stations an edge is one run a side, one that goes round the nose is joined") {
    // to x = 0.575 on both sides: 30 degrees of the arc
    const auto two = edge_runs(stadium(Range{-0.2, 0.575}));
    REQUIRE(two.size() == 2);
    for (const EdgeRun& run : two) {
        CHECK(run.length == Approx(0.7 + 0.15 * half_turn / 6).epsilon(1e-6));
        CHECK(run.turn == Approx(half_turn / 6).epsilon(1e-2)); // by whole chords
    }
    CHECK(two[0].from_x == Approx(-0.2));
    CHECK(two[0].to_x == Approx(0.575));
    CHECK(two[1].from_x == Approx(0.575)); // counter-clockwise: back on the left
    CHECK(two[1].to_x == Approx(-0.2));
    const auto nose = edge_runs(stadium(Range{0.1, 1}));
    REQUIRE(nose.size() == 1);
    CHECK(nose[0].length == Approx(0.8 + half_turn * 0.15).epsilon(1e-6));
    CHECK(nose[0].turn == Approx(half_turn).epsilon(1e-6));
    const auto tail = edge_runs(stadium(Range{-1, -0.1})); // the outline begins within it
    REQUIRE(tail.size() == 1);
    CHECK(tail[0].length == Approx(0.8 + half_turn * 0.15).epsilon(1e-6));
    CHECK(tail[0].from_x == Approx(-0.1));
    CHECK(tail[0].to_x == Approx(-0.1));
    CHECK(edge_runs(stadium(Range{0.7, 1})).empty());
    Board none = stadium(std::nullopt);
    none.edge.reset();
    CHECK(edge_runs(none).empty());
}

TEST_CASE("corners are counted within a run, at its beginning only where it closes") {
    Board board;
    board.planform = rectangle_planform(1, 0.2);
    board.edge = Edge{"steel", 2e-3, std::nullopt, std::nullopt};
    REQUIRE(edge_runs(board).size() == 1);
    CHECK(edge_runs(board)[0].corners == 4);
    CHECK(edge_runs(board)[0].turn == Approx(2 * half_turn));
    board.edge->x = Range{0, 1}; // round the nose
    REQUIRE(edge_runs(board).size() == 1);
    CHECK(edge_runs(board)[0].corners == 2);
    CHECK(edge_runs(board)[0].length == Approx(1.2));
    CHECK(edge_runs(board)[0].turn == Approx(half_turn));
    CHECK(std::isinf(edge_runs(board)[0].tightest));
    board.edge->x = Range{-0.5, 0.2};
    REQUIRE(edge_runs(board).size() == 1); // the tail's end stands at its first station
    CHECK(edge_runs(board)[0].corners == 2);
}
