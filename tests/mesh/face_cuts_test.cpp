#include "mesh/block_plan.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/mesh/map_faces.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Vector2d;

namespace {

// The map, cut, once it is what it should be.
PlanarMap cut_map(const LineGraph& graph, const CutStyle& style = {}) {
    PlanarMap map(graph);
    REQUIRE_FALSE(cut_to_convex(map, style));
    for (const int h : faces_of(map)) {
        CHECK(corner_area(map, h) > 0);
        CHECK(map.face(h).size() >= 3);
        for (const int side : map.face(h)) {
            CHECK(map.angle(side) < 160.001 * std::numbers::pi / 180);
        }
    }
    return map;
}

double sum_of(const std::vector<double>& areas) {
    double sum = 0;
    for (const double area : areas) {
        sum += area;
    }
    return sum;
}

// Of every corner of every face, the sharpest.
double sharpest(const PlanarMap& map) {
    double least = std::numbers::pi;
    for (const int h : faces_of(map)) {
        for (const int side : map.face(h)) {
            least = std::min(least, map.angle(side));
        }
    }
    return least;
}

} // namespace

TEST_CASE("a re-entrant corner is cut to the corner across it") {
    const PlanarMap map = cut_map(polygon_graph({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}));
    const std::vector<double> areas = corner_areas(map);
    REQUIRE(areas.size() == 2); // by the diagonal from (0, 0) to (1, 1)
    CHECK(areas[0] == Approx(1.5));
    CHECK(areas[1] == Approx(1.5));
}

TEST_CASE("two corners that turn inwards are joined by one cut") {
    const PlanarMap map =
        cut_map(polygon_graph({{0, 0}, {1, 0.4}, {2, 0}, {2, 1.2}, {1, 0.8}, {0, 1.2}}));
    CHECK(faces_of(map).size() == 2);
    CHECK(map.graph().edges.size() == 7);
    // unless that is made dear
    CHECK(cut_map(polygon_graph({{0, 0}, {1, 0.4}, {2, 0}, {2, 1.2}, {1, 0.8}, {0, 1.2}}),
                  {0.1, -1, 0.15, 0.015, 0.5})
              .graph()
              .edges.size() > 7);
}

TEST_CASE("no cut leads across another side, however the face winds") {
    const std::vector<Vector2d> comb{{0, 0},   {7, 0},   {7, 3}, {6, 3},   {6, 0.5}, {5, 0.7},
                                     {5, 3},   {4, 2.5}, {4, 1}, {3, 0.4}, {3, 3},   {2, 3},
                                     {2, 0.6}, {1, 1},   {1, 3}, {0, 3}};
    std::vector<Vector2d> star;
    for (int k = 0; k < 14; ++k) {
        const double angle = 2 * std::numbers::pi * k / 14, reach = k % 2 == 0 ? 3 + 0.2 * k : 1;
        star.emplace_back(reach * std::cos(angle), reach * std::sin(angle));
    }
    const std::vector<Vector2d> spiral{{0, 0}, {6, 0}, {6, 5}, {1, 5}, {1, 2}, {4, 2},
                                       {4, 3}, {2, 3}, {2, 4}, {5, 4}, {5, 1}, {0, 1}};
    for (const auto& corners : {comb, star, spiral}) {
        double twice = 0;
        for (std::size_t k = 0; k < corners.size(); ++k) {
            const Vector2d &a = corners[k], &b = corners[(k + 1) % corners.size()];
            twice += a.x() * b.y() - a.y() * b.x();
        }
        CHECK(sum_of(corner_areas(cut_map(polygon_graph(corners)))) == Approx(twice / 2));
    }
}

TEST_CASE("a line that ends on another is led on across the next face") {
    // the square's right half is divided by a line that ends on its middle one
    LineGraph graph = polygon_graph({{0, 0}, {1, 0}, {2, 0}, {2, 0.5}, {2, 1}, {1, 1}, {0, 1}});
    graph.vertices.emplace_back(1, 0.5);
    add_edge(graph, 1, 7);
    add_edge(graph, 7, 5);
    add_edge(graph, 3, 7);
    const PlanarMap map = cut_map(graph);
    const std::vector<double> areas = corner_areas(map);
    REQUIRE(areas.size() == 4);
    CHECK(areas[0] == Approx(0.5)); // straight on, to the left side's middle
    CHECK(areas[3] == Approx(0.5));
    CHECK(sharpest(map) == Approx(std::numbers::pi / 2));
    CHECK(cut_map(graph, {0.5, 0.0, 0.0, 0.002, 1}).graph().vertices.size() == 9);
}

TEST_CASE("a lens is cut across its middle") {
    // two arcs of radius 1 that meet at (+-sin 45, 0) at right angles
    const double s = std::sqrt(0.5);
    OutlinePiece lower;
    lower.radius = 1;
    lower.centre = {0, s};
    lower.angle_from = 1.25 * std::numbers::pi;
    lower.angle_to = 1.75 * std::numbers::pi;
    OutlinePiece upper = lower;
    upper.centre = {0, -s};
    upper.angle_from = 0.25 * std::numbers::pi;
    upper.angle_to = 0.75 * std::numbers::pi;
    LineGraph graph;
    graph.loops.emplace_back(
        std::vector<CurveSpan>{{lower, 0, 1, 0, true}, {upper, 0, 1, 0, true}});
    graph.vertices = {{-s, 0}, {s, 0}};
    const double length = graph.loops[0].length();
    graph.edges = {{0, 1, 0, 0, length / 2, 0, Rank::outline, true},
                   {1, 0, 0, length / 2, length, 0, Rank::outline, true}};
    const PlanarMap map = cut_map(graph);
    REQUIRE(faces_of(map).size() == 2);
    const GraphEdge& cut = map.graph().edges.back();
    CHECK(cut.line == -1);
    const Vector2d from = point_on(map.graph(), cut, 0), to = point_on(map.graph(), cut, 1);
    CHECK(from.x() == Approx(0).margin(1e-9));
    CHECK(to.x() == Approx(0).margin(1e-9));
    CHECK(std::abs(to.y() - from.y()) == Approx(2 - 2 * s));
}

TEST_CASE("a long face is sliced near the end that has the odd corners") {
    // 10 x 1 with a corner cut off: 9.875 m2, a slice 1.7 widths of 0.9875 m from that end
    for (const bool mirrored : {false, true}) {
        std::vector<Vector2d> corners{{0, 0}, {10, 0}, {10, 1}, {0.5, 1}, {0, 0.5}};
        if (mirrored) {
            corners = {{0, 0}, {10, 0}, {10, 0.5}, {9.5, 1}, {0, 1}};
        }
        const std::vector<double> areas = corner_areas(cut_map(polygon_graph(corners)));
        REQUIRE(areas.size() == 2);
        CHECK(areas[0] == Approx(1.7 * 0.9875 - 0.125));
        CHECK(sum_of(areas) == Approx(9.875));
    }
    // as long as it is, with four corners it stays
    CHECK(corner_areas(cut_map(polygon_graph({{0, 0}, {10, 0}, {10, 1}, {0, 1}}))).size() == 1);
    // and so does a short one with five
    CHECK(
        corner_areas(cut_map(polygon_graph({{0, 0}, {3, 0}, {3, 1}, {0.5, 1}, {0, 0.5}}))).size() ==
        1);
}

TEST_CASE("a line that closes on itself cannot be cut") {
    OutlinePiece round;
    round.radius = 1;
    round.angle_to = 2 * std::numbers::pi;
    LineGraph graph;
    graph.loops.emplace_back(std::vector<CurveSpan>{{round}});
    graph.vertices = {{1, 0}};
    graph.edges = {{0, 0, 0, 0, graph.loops[0].length(), 0, Rank::outline, true}};
    PlanarMap map(graph);
    const auto failure = cut_to_convex(map, {});
    REQUIRE(failure);
    CHECK(failure->why == "a line closes on itself");
}

TEST_CASE("however many lines end between others, cutting goes on until all faces are convex") {
    // 44 strips and 150 lines of 71 mm that end in them: 4500 cuts, a good two for each edge
    MeshLines lines;
    for (int k = 1; k < 45; ++k) {
        const double y = -0.2 + k * 0.4 / 45;
        lines.straight.push_back({{-0.5, y}, {0.5, y}, Rank::zone, "strip"});
    }
    for (int k = 0; k < 150; ++k) {
        const Vector2d from(-0.45 + k * 0.8 / 150, -0.17 + 0.03 * (7 * k % 10));
        lines.straight.push_back({from, from + Vector2d(0.05, 0.05), Rank::zone, "side"});
    }
    std::vector<Omission> omitted;
    (void)cut_map(split_lines(rectangle_planform(1, 0.4), lines, omitted));
}
