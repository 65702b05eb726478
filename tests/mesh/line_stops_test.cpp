#include "mesh/line_stops.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

// What is there of stops that name a vertex at this place.
std::vector<Stop> stops_at(const LineStops& all, const std::vector<Stop>& stops,
                           const Vector2d& place) {
    std::vector<Stop> found;
    for (const Stop& stop : stops) {
        if ((all.vertices.points[static_cast<std::size_t>(stop.vertex)] - place).norm() < 1e-12) {
            found.push_back(stop);
        }
    }
    return found;
}

} // namespace

TEST_CASE("points nearer than 0.05 mm are one vertex, on either side of a cell's border") {
    VertexGrid grid;
    const int first = grid.at({2e-4 - 1e-5, 0.1});
    CHECK(grid.at({2e-4 + 3e-5, 0.1}) == first); // across x = 0.2 mm
    CHECK(grid.at({2e-4 - 1e-5, 0.1 - 4.9e-5}) == first);
    CHECK(grid.at({2e-4 - 1e-5 + 5.1e-5, 0.1}) != first);
    CHECK(grid.at({-1e-5, -1e-5}) == grid.at({1e-5, 1e-5}));
    CHECK(grid.points.size() == 3);
}

TEST_CASE("lines stop where they cross the outline and each other, lengths from their starts") {
    const std::vector<Loop> loops{outline_loop(rectangle_planform(1, 0.4))};
    MeshLines lines;
    lines.straight = {{{0.1, -0.3}, {0.1, 0.3}, Rank::station, "station"},
                      {{-0.2, -0.05}, {0.3, 0.2}, Rank::zone, "slanted"}}; // ends on the outline
    const LineStops all = line_stops(loops, lines);
    REQUIRE(all.straight.size() == 2); // the station crosses the loop: no middle line
    const Vector2d cross(0.1, 0.1);
    for (const auto& [place, s] :
         {std::pair(Vector2d(0.1, -0.2), 0.1), {cross, 0.4}, {Vector2d(0.1, 0.2), 0.5}}) {
        const auto found = stops_at(all, all.on_straight[0], place);
        REQUIRE_FALSE(found.empty());
        for (const Stop& stop : found) {
            CHECK(stop.s == Approx(s).epsilon(1e-12));
        }
    }
    const double whole = std::hypot(0.5, 0.25);
    for (const auto& [place, share] :
         {std::pair(Vector2d(-0.2, -0.05), 0.0), {cross, 0.6}, {Vector2d(0.3, 0.2), 1.0}}) {
        const auto found = stops_at(all, all.on_straight[1], place);
        REQUIRE_FALSE(found.empty());
        for (const Stop& stop : found) {
            CHECK(stop.s == Approx(share * whole).margin(1e-12));
        }
    }
    int corners = 0;
    for (const Stop& stop : all.on_loops[0]) {
        CHECK((loops[0].point(stop.s) - all.vertices.points[static_cast<std::size_t>(stop.vertex)])
                  .norm() < 1e-12);
        corners += stop.corner ? 1 : 0;
    }
    CHECK(corners == 4);
    for (const Vector2d& place : {Vector2d(0.1, -0.2), Vector2d(0.1, 0.2), Vector2d(0.3, 0.2)}) {
        CHECK_FALSE(stops_at(all, all.on_loops[0], place).empty());
    }
    CHECK(all.vertices.points.size() == 4 + 3 + 2 + 2); // corners, crossings, ends of both
}

TEST_CASE("a line that ends on another stops it there, one that ends short of it does not") {
    const std::vector<Loop> loops{outline_loop(rectangle_planform(1, 0.4))};
    MeshLines lines;
    lines.straight = {{{0.1, -0.2}, {0.1, 0.2}, Rank::station, ""},
                      {{0.1, 0.05}, {0.4, 0.05}, Rank::zone, ""},
                      {{-0.4, -0.1}, {0.0998, -0.1}, Rank::zone, ""}};
    const LineStops all = line_stops(loops, lines);
    const auto there = stops_at(all, all.on_straight[0], {0.1, 0.05});
    REQUIRE_FALSE(there.empty());
    CHECK(there[0].s == Approx(0.25));
    CHECK(stops_at(all, all.on_straight[0], {0.1, -0.1}).empty());
    CHECK(stops_at(all, all.on_straight[0], {0.0998, -0.1}).empty());
}

TEST_CASE("a line within 0.02 mm of a side runs along it and crosses it nowhere") {
    const std::vector<Loop> loops{outline_loop(rectangle_planform(1, 0.4))};
    MeshLines lines;
    lines.straight = {{{0.1, -0.3}, {0.1, 0.3}, Rank::station, ""},
                      {{-0.6, 0.2 - 1e-5}, {0.6, 0.2 + 1e-5}, Rank::zone, ""}};
    const LineStops all = line_stops(loops, lines);
    for (const Stop& stop : all.on_loops[0]) { // corners and the station alone
        const double x = all.vertices.points[static_cast<std::size_t>(stop.vertex)].x();
        CHECK((std::abs(x) > 0.5 - 1e-4 || x == 0.1));
    }
}

TEST_CASE("a loop that no line crosses gets one through its middle") {
    const std::vector<Loop> loops{outline_loop(rectangle_planform(1, 0.4))};
    const auto added = [&](const std::vector<StraightLine>& straight) {
        MeshLines lines;
        lines.straight = straight;
        return line_stops(loops, lines).straight.size() - straight.size();
    };
    CHECK(added({}) == 1);
    const StraightLine middle = line_stops(loops, {}).straight[0];
    CHECK(middle.a == Vector2d(-1.5, 0)); // from a metre before its tail to a metre beyond its nose
    CHECK(middle.b == Vector2d(1.5, 0));
    CHECK(middle.rank == Rank::axis);
    CHECK(added({{{-0.6, 0.1}, {0.6, 0.1}, Rank::zone, ""}}) == 0);
    CHECK(added({{{-0.6, 0.1995}, {0.6, 0.1995}, Rank::zone, ""}}) == 1); // along its side
    CHECK(added({{{-0.6, 0.1}, {0.4, 0.1}, Rank::zone, ""}}) == 1);       // not right across
    CHECK(added({{{0.2, -0.3}, {0.2, 0.3}, Rank::station, ""}}) == 0);
    CHECK(added({{{0.2, -0.1}, {0.2, 0.3}, Rank::station, ""}}) == 1);
    CHECK(added({{{0.4995, -0.3}, {0.4995, 0.3}, Rank::station, ""}}) == 1);
}
