#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/block_plan.hpp"
#include "mesh/index.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

CurveSpan turning(const Vector2d& centre, double radius, double from, double to) {
    CurveSpan span;
    span.piece.centre = centre;
    span.piece.radius = radius;
    span.piece.angle_from = from;
    span.piece.angle_to = to;
    return span;
}

// The map of one loop with vertices at the starts of its spans.
PlanarMap turning_map(std::vector<CurveSpan> spans) {
    LineGraph graph;
    graph.names = {"outline"};
    const int count = static_cast<int>(spans.size());
    graph.loops.emplace_back(std::move(spans));
    const Loop& loop = graph.loops[0];
    std::vector<double> at(index(count) + 1, loop.length());
    for (auto sample = loop.samples().rbegin() + 1; sample != loop.samples().rend(); ++sample) {
        at[index(sample->span)] = sample->s;
    }
    for (int k = 0; k < count; ++k) {
        graph.vertices.push_back(loop.point(at[index(k)]));
        graph.edges.push_back(
            {k, (k + 1) % count, 0, at[index(k)], at[index(k + 1)], 0, Rank::outline, true});
    }
    return PlanarMap(graph);
}

// A circle of 100 mm in even arcs, run through to the left (1) or to the right (-1), and how many
// vertices it has once far turns are split.
std::size_t vertices_of_circle(int arcs, int way) {
    std::vector<CurveSpan> spans;
    for (int k = 0; k < arcs; ++k) {
        spans.push_back(turning({0, 0}, 0.1, way * 2 * std::numbers::pi * k / arcs,
                                way * 2 * std::numbers::pi * (k + 1) / arcs));
    }
    PlanarMap map = turning_map(spans);
    split_far_turns(map);
    return map.graph().vertices.size();
}

} // namespace

TEST_CASE("a curve is split that turns by more than 110 degrees, or by more than 45 to the right") {
    CHECK(vertices_of_circle(2, 1) == 8); // pieces of 45 degrees
    CHECK(vertices_of_circle(3, 1) == 9); // of 40
    CHECK(vertices_of_circle(4, 1) == 4);
    CHECK(vertices_of_circle(4, -1) == 8);
    CHECK(vertices_of_circle(7, -1) == 14);
    CHECK(vertices_of_circle(9, -1) == 9);
}

TEST_CASE("what is split has even turns between its vertices, however far apart they are") {
    // 60 degrees of 200 mm go on into 60 of 20 mm: thirds lie at 40 degrees on one, at 80 on the
    // other
    const auto ray = [](double angle) { return Vector2d(std::cos(angle), std::sin(angle)); };
    const Vector2d centre = 0.18 * ray(std::numbers::pi / 3);
    CurveSpan wide = turning({0, 0}, 0.2, 0, std::numbers::pi / 3);
    CurveSpan tight = turning(centre, 0.02, std::numbers::pi / 3, 2 * std::numbers::pi / 3);
    PlanarMap map = turning_map(
        {wide, tight, turning(centre, 0.02, 2 * std::numbers::pi / 3, std::numbers::pi)});
    LineGraph graph = map.graph(); // the first two arcs as one edge
    graph.edges[0].b = graph.edges[1].b;
    graph.edges[0].to = graph.edges[1].to;
    graph.edges.erase(graph.edges.begin() + 1);
    PlanarMap joined(graph);
    split_far_turns(joined);
    REQUIRE(joined.graph().vertices.size() == 5);
    const double probe = (graph.edges[0].to - graph.edges[0].from) / 64; // turns are added up by
    CHECK((joined.graph().vertices[3] - 0.2 * ray(2 * std::numbers::pi / 9)).norm() < probe);
    CHECK((joined.graph().vertices[4] - centre - 0.02 * ray(4 * std::numbers::pi / 9)).norm() <
          probe);
}
