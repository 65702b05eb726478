#include "mesh/planar_map.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "tests/mesh/map_faces.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Vector2d;

namespace {

// A unit square, its corners 0 to 3, with vertex 4 in it, joined to three of them.
PlanarMap divided_square() {
    LineGraph graph = polygon_graph({{0, 0}, {1, 0}, {1, 1}, {0, 1}});
    graph.vertices.emplace_back(0.25, 0.5);
    add_edge(graph, 0, 4);
    add_edge(graph, 4, 1);
    add_edge(graph, 2, 4);
    return PlanarMap(graph);
}

void check_links(const PlanarMap& map) {
    const PlanarMap anew(map.graph()); // links by the angles at which edges leave
    REQUIRE(anew.half_edges() == map.half_edges());
    for (int h = 0; h < map.half_edges(); ++h) {
        CAPTURE(h);
        CHECK(map.next(h) == anew.next(h));
        CHECK(map.previous(map.next(h)) == h);
        CHECK(map.origin(map.next(h)) == map.origin(h ^ 1));
        CHECK((map.point(h, 1) - map.point(map.next(h), 0)).norm() < 1e-15);
    }
}

} // namespace

TEST_CASE("faces lie on the left of their half-edges, corner after corner") {
    const PlanarMap map = divided_square();
    check_links(map);
    REQUIRE(faces_of(map).size() == 3);
    const std::vector<double> areas = corner_areas(map);
    CHECK(areas[0] == Approx(0.25));
    CHECK(areas[1] == Approx(0.375)); // beside the right side
    CHECK(areas[2] == Approx(0.375)); // of four corners, at the left
    for (const int h : faces_of(map)) {
        const std::vector<int> round = map.face(h);
        double sum = 0;
        for (const int side : round) {
            sum += map.angle(side);
        }
        CHECK(sum == Approx((static_cast<double>(round.size()) - 2) * std::numbers::pi));
    }
    CHECK(map.angle(0) == Approx(std::atan2(0.5, 0.25)));
    CHECK((map.leaving(1) - Vector2d(-1, 0)).norm() < 1e-15);
    CHECK((map.arriving(1) - Vector2d(-1, 0)).norm() < 1e-15);
    CHECK_FALSE(map.has_face(1));
    CHECK(map.has_face(9));
}

TEST_CASE("a map that was split and cut is linked as one made of the same edges") {
    PlanarMap map = divided_square();
    const int on = map.split(4, 0.9); // the upper side, from the right
    CHECK((map.point(on, 0) - Vector2d(0.1, 1)).norm() < 1e-15);
    CHECK((map.point(on, 1) - Vector2d(0, 1)).norm() < 1e-15);
    check_links(map);
    const int back = map.split(9, 0.2); // against the edge 0-4: from 4
    CHECK((map.point(back, 0) - Vector2d(0.2, 0.4)).norm() < 1e-15);
    CHECK((map.point(back, 1) - Vector2d(0, 0)).norm() < 1e-15);
    check_links(map);
    const int there = map.cut(map.next(back ^ 1), on); // of the same vertex, on the other side
    CHECK((map.point(there, 0) - Vector2d(0.2, 0.4)).norm() < 1e-15);
    CHECK((map.point(there, 1) - Vector2d(0.1, 1)).norm() < 1e-15);
    check_links(map);
    CHECK(faces_of(map).size() == 4);
    double sum = 0;
    for (const double area : corner_areas(map)) {
        CHECK(area > 0);
        sum += area;
    }
    CHECK(sum == Approx(1));
}

TEST_CASE("a split end that hangs free keeps its face in one round") {
    LineGraph graph = polygon_graph({{0, 0}, {1, 0}, {0, 1}});
    graph.vertices.emplace_back(0.2, 0.2);
    add_edge(graph, 0, 3);
    PlanarMap map(graph);
    CHECK(map.face(0).size() == 5);
    map.split(6, 0.5);
    check_links(map);
    CHECK(map.face(0).size() == 7);
}

TEST_CASE("what floats free is joined to the nearest edge beside it") {
    LineGraph graph = polygon_graph({{0, 0}, {2.5, 0}, {6, 0}, {6, 4}, {5.5, 4}, {3, 4}, {0, 4}});
    graph.vertices.insert(graph.vertices.end(),
                          {Vector2d(3, 1.5), Vector2d(1, 2), Vector2d(2, 2.5)});
    add_edge(graph, 5, 7); // from above, at 3
    add_edge(graph, 1, 4); // slanted: it begins at 2.5, but is at 4.4 beside the island's end
    add_edge(graph, 8, 9);
    const PlanarMap map(graph);
    CHECK(map.graph().vertices.size() == 12);
    CHECK((map.graph().vertices[10] - Vector2d(3, 2.5)).norm() < 1e-12);
    CHECK((map.graph().vertices[11] - Vector2d(0, 2)).norm() < 1e-12);
    check_links(map);
}

TEST_CASE("what floats free is joined at both its ends") {
    LineGraph graph = polygon_graph({{0, 0}, {4, 0}, {4, 4}, {0, 4}});
    for (const Vector2d& corner :
         {Vector2d(1, 1), Vector2d(2, 1), Vector2d(2, 2), Vector2d(1, 3)}) {
        graph.vertices.push_back(corner);
    }
    for (int k = 0; k < 4; ++k) {
        add_edge(graph, 4 + k, 4 + (k + 1) % 4);
    }
    const PlanarMap map(graph);
    check_links(map);
    const int vertices = static_cast<int>(map.graph().vertices.size());
    CHECK(vertices == 10); // one on either side of the square
    CHECK(vertices - map.half_edges() / 2 + static_cast<int>(faces_of(map).size()) == 1); // Euler
    double sum = 0;
    for (const double area : corner_areas(map)) {
        CHECK(area > 0);
        sum += area;
    }
    CHECK(sum == Approx(16));
}
