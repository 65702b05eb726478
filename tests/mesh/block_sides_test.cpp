#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/blocks.hpp"
#include "tests/mesh/map_faces.hpp"
#include "tests/mesh/ring_sector.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Vector2d;

namespace {

std::vector<int> divisions_of(const BlockMesh& blocks) {
    std::vector<int> all;
    for (const BlockEdge& edge : blocks.edges) {
        all.push_back(edge.divisions);
    }
    std::sort(all.begin(), all.end());
    return all;
}

} // namespace

TEST_CASE("sides are divided into the wanted length, an excess of 15 % left as it is") {
    const PlanarMap map(polygon_graph({{0, 0}, {1, 0}, {1, 0.4}, {0, 0.4}}));
    const auto divided = [&](double size) { return divisions_of(make_blocks(map, size)); };
    CHECK(divided(0.2) == std::vector<int>{2, 2, 5, 5});
    CHECK(divided(0.99 / 1.15) == std::vector<int>{1, 1, 2, 2});
    CHECK(divided(1.01 / 1.15) == std::vector<int>{1, 1, 1, 1});
    CHECK(divided(0.06) == std::vector<int>{7, 7, 17, 17}); // 6.67 and 16.67
}

TEST_CASE("opposite sides have the divisions of the longer, through all blocks in a row") {
    LineGraph graph = polygon_graph({{0, 0}, {1, 0}, {3, 0}, {3, 4}, {1, 2}, {0, 2}});
    add_edge(graph, 1, 4);
    // upright sides of 2, 2 and 4; levels of 1 and 1; of 2 and sqrt 8
    CHECK(divisions_of(make_blocks(PlanarMap(graph), 1.0)) ==
          std::vector<int>{1, 1, 3, 3, 4, 4, 4});
}

TEST_CASE("no quad turns by more than 40 degrees, again with 15 % to spare") {
    for (const double degrees : {44.0, 48.0, 85.0, 88.0}) {
        const PlanarMap map(ring_sector(1, 2, degrees * std::numbers::pi / 180));
        const int parts = static_cast<int>(std::ceil(degrees / 40 - 0.15));
        CHECK(divisions_of(make_blocks(map, 10)) == std::vector<int>{1, 1, parts, parts});
    }
}

TEST_CASE("points of a block's sides lie on the lines they follow, by their shares") {
    const PlanarMap map(ring_sector(1, 2, std::numbers::pi / 2));
    const BlockMesh blocks = make_blocks(map, 10);
    const std::vector<double> shares{0, 0.2, 0.5, 1};
    for (int e = 0; e < static_cast<int>(blocks.edges.size()); ++e) {
        const BlockEdge& edge = blocks.edges[static_cast<std::size_t>(e)];
        const Vector2d a = blocks.vertices[static_cast<std::size_t>(edge.a)];
        const Vector2d b = blocks.vertices[static_cast<std::size_t>(edge.b)];
        const auto points = points_on(map, blocks, e, shares);
        for (std::size_t k = 0; k < shares.size(); ++k) {
            if (a.norm() == Approx(b.norm())) { // an arc
                CHECK(points[k].norm() == Approx(a.norm()).epsilon(1e-9));
                const double from = std::atan2(a.y(), a.x()), to = std::atan2(b.y(), b.x());
                CHECK(std::atan2(points[k].y(), points[k].x()) ==
                      Approx(from + shares[k] * (to - from)).margin(1e-6));
            } else {
                CHECK((points[k] - a - shares[k] * (b - a)).norm() < 1e-9);
            }
        }
        CHECK((points.front() - a).norm() < 1e-14);
        CHECK((points.back() - b).norm() < 1e-14);
    }
    // half-way between the two arcs, and its mirror image
    BlockMesh half = blocks;
    BlockEdge& between = half.edges.emplace_back();
    half.vertices.emplace_back(1.5, 0);
    half.vertices.emplace_back(0, 1.5);
    between.a = static_cast<int>(half.vertices.size()) - 2;
    between.b = between.a + 1;
    between.line = 2;       // the outer arc
    between.blend_with = 7; // the inner one, against its way
    const int last = static_cast<int>(half.edges.size()) - 1;
    for (const Vector2d& p : points_on(map, half, last, shares)) {
        CHECK(p.norm() == Approx(1.5).epsilon(1e-9));
        CHECK(p.y() >= 0);
    }
    half.edges.back().mirrored = true;
    half.vertices.back() *= -1;
    CHECK((points_on(map, half, last, {0.5})[0] - 1.5 * Vector2d(1, -1) / std::sqrt(2)).norm() <
          1e-6);
}

TEST_CASE("Coons' surface is exact for sides that bend alike and for a bilinear patch") {
    const auto exact = [](double u, double v) {
        return Vector2d(2 * u + u * v + v * v, v + 3 * u * v - u * u + v * u * u * u);
    };
    for (const auto& [u, v] : {std::pair(0.3, 0.6), {0.9, 0.2}, {0.0, 0.5}}) {
        const Vector2d found = coons({exact(u, 0),
                                      exact(u, 1),
                                      exact(0, v),
                                      exact(1, v),
                                      {exact(0, 0), exact(1, 0), exact(1, 1), exact(0, 1)}},
                                     u, v);
        CHECK((found - exact(u, v)).norm() < 1e-14);
    }
}
