#include <catch2/catch.hpp>

#include "tests/mesh/map_faces.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Vector2d;

namespace {

MeshLines crossed_lines() {
    MeshLines lines;
    lines.straight = {{{0.1, -0.3}, {0.1, 0.3}, Rank::wanted_station, "station"},
                      {{-0.5, 0}, {0.5, 0}, Rank::axis, "axis"},
                      {{-0.5, 0.05}, {0.5, 0.05}, Rank::zone, "upper"},
                      {{-0.5, -0.05}, {0.5, -0.05}, Rank::zone, "lower"}};
    return lines;
}

} // namespace

TEST_CASE("lines across a rectangle divide it into rectangles") {
    std::vector<Omission> omitted;
    const LineGraph graph = split_lines(rectangle_planform(1, 0.4), crossed_lines(), omitted);
    const PlanarMap map(graph);
    CHECK(omitted.empty());
    const std::vector<double> areas = corner_areas(map); // 0.4 or 0.6 by 0.05 or 0.15
    REQUIRE(areas.size() == 8);
    const std::vector<double> wanted{0.02, 0.02, 0.03, 0.03, 0.06, 0.06, 0.09, 0.09};
    for (std::size_t k = 0; k < 8; ++k) {
        CHECK(areas[k] == Approx(wanted[k]));
    }
    CHECK(static_cast<int>(graph.vertices.size()) - static_cast<int>(graph.edges.size()) + 8 ==
          1 + 2); // Euler; the ends of the station outside belong to no edge
    CHECK(graph.names == std::vector<std::string>{"station", "axis", "upper", "lower", "outline"});
    for (const GraphEdge& edge : graph.edges) {
        CHECK(edge.boundary == (edge.line == 4));
        CHECK((edge.rank == Rank::outline) == (edge.line == 4));
        const Vector2d a = graph.vertices[static_cast<std::size_t>(edge.a)];
        const Vector2d b = graph.vertices[static_cast<std::size_t>(edge.b)];
        CHECK(edge.to - edge.from == Approx((b - a).norm()));
    }
}

TEST_CASE("of a symmetric board the half above the axis is there, the axis its border") {
    std::vector<Omission> omitted;
    MeshLines lines = crossed_lines();
    lines.symmetric = true;
    const LineGraph graph = split_lines(rectangle_planform(1, 0.4), lines, omitted);
    CHECK(graph.half);
    const PlanarMap map(graph);
    const std::vector<double> areas = corner_areas(map);
    REQUIRE(areas.size() == 4);
    CHECK(areas[0] == Approx(0.02));
    CHECK(areas[3] == Approx(0.09));
    int on_axis = 0;
    for (const GraphEdge& edge : graph.edges) {
        on_axis += edge.line == 1 ? 1 : 0;
        CHECK((edge.line != 1 || (edge.boundary && edge.rank == Rank::outline)));
    }
    CHECK(on_axis == 2);
}

TEST_CASE("a stretch that is omitted joins the faces on its sides") {
    std::vector<Omission> omitted{{2, 0.55, 1.2}}; // of the upper line, beyond the station
    const PlanarMap map(split_lines(rectangle_planform(1, 0.4), crossed_lines(), omitted));
    const std::vector<double> areas = corner_areas(map);
    REQUIRE(areas.size() == 7);
    CHECK(areas[6] == Approx(0.09));
    CHECK(areas[5] == Approx(0.09));
    CHECK(areas[4] == Approx(0.08)); // 0.4 by 0.2
    CHECK(omitted.size() == 1);
    omitted = {{1, 5, 6}, {4, -2, -1}}; // no stretch is there
    CHECK(corner_areas(PlanarMap(split_lines(rectangle_planform(1, 0.4), crossed_lines(), omitted)))
              .size() == 8);
}

TEST_CASE("a stretch goes as a whole with any part of it between two cuts") {
    std::vector<Omission> omitted{{2, 0.02, 0.05}}; // of the upper line, before the station
    const PlanarMap map(split_lines(rectangle_planform(1, 0.4), crossed_lines(), omitted));
    const std::vector<double> areas = corner_areas(map);
    REQUIRE(areas.size() == 7);
    CHECK(areas[6] == Approx(0.12)); // 0.6 by 0.2
    REQUIRE(omitted.size() == 1);
    CHECK(omitted[0].from == Approx(0).margin(1e-12)); // as the note will say
    CHECK(omitted[0].to == Approx(0.6));
}

TEST_CASE("a band along the outline is a loop of its own") {
    std::vector<Omission> omitted;
    MeshLines lines;
    lines.straight = {{{0.1, -0.3}, {0.1, 0.3}, Rank::wanted_station, "station"}};
    lines.parallels = {{0.05, Rank::band, "edge"}};
    const LineGraph graph = split_lines(rectangle_planform(1, 0.4), lines, omitted);
    REQUIRE(graph.loops.size() == 2);
    const std::vector<double> areas = corner_areas(PlanarMap(graph));
    REQUIRE(areas.size() == 4);
    // within 0.35 or 0.55 by 0.3; a frame of 0.05 beside each
    CHECK(areas[0] == Approx(0.4 * 0.4 - 0.35 * 0.3));
    CHECK(areas[1] == Approx(0.6 * 0.4 - 0.55 * 0.3));
    CHECK(areas[2] == Approx(0.35 * 0.3));
    CHECK(areas[3] == Approx(0.55 * 0.3));
    for (const GraphEdge& edge : graph.edges) {
        CHECK(edge.boundary == (edge.loop == 0));
        CHECK((edge.loop != 1 || (edge.line == 2 && edge.rank == Rank::band)));
    }
}

TEST_CASE("two lines in one place are one, of the higher rank") {
    std::vector<Omission> omitted;
    MeshLines lines = crossed_lines();
    lines.straight[2] = {{-0.5, 1e-5}, {0.5, 1e-5}, Rank::zone, "on the axis, nearly"};
    const LineGraph graph = split_lines(rectangle_planform(1, 0.4), lines, omitted);
    CHECK(corner_areas(PlanarMap(graph)).size() == 6);
    for (const GraphEdge& edge : graph.edges) {
        CHECK(edge.line != 1);
    }
}
