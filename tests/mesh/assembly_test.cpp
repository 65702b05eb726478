#include "mesh/assembly.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/lobatto.hpp"
#include "mesh/quad_sides.hpp"
#include "mesh/quality.hpp"
#include "tests/mesh/grid_mesh.hpp"
#include "tests/mesh/map_faces.hpp"
#include "tests/mesh/ring_sector.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::Vector2d;

namespace {

Mesh assembled_mesh(const LineGraph& graph, double size, int degree,
                    std::vector<int>* quad_block = nullptr) {
    const PlanarMap map(graph);
    const BlockMesh blocks = make_blocks(map, size);
    std::vector<BlockGrid> grids;
    for (int k = 0; k < static_cast<int>(blocks.blocks.size()); ++k) {
        grids.push_back(coons_grid(map, blocks, k));
    }
    return assemble_mesh(map, blocks, grids, degree, quad_block);
}

// Numbers that fit each other: vertices, sides, shared points, the outline in one round.
void check_numbers(const Mesh& mesh) {
    const auto g = static_cast<Index>(mesh.geometry_degree);
    std::map<int, std::vector<Eigen::Matrix2Xd>> points_of; // by edge
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        const std::array<Index, 4> corner{0, g, g * (g + 2), g * (g + 1)};
        for (std::size_t k = 0; k < 4; ++k) {
            const int vertex = mesh.quads[q][k];
            CHECK(mesh.geometry[q].col(corner[k]) ==
                  mesh.vertices[static_cast<std::size_t>(vertex)]);
            const auto edge = static_cast<std::size_t>(mesh.quad_edges[q][k]);
            CHECK(mesh.edges[edge][0] == std::min(vertex, mesh.quads[q][(k + 1) % 4]));
            CHECK(mesh.edges[edge][1] == std::max(vertex, mesh.quads[q][(k + 1) % 4]));
            points_of[mesh.quad_edges[q][k]].push_back(
                mesh.geometry[q](Eigen::all, edge_points(mesh, q, k)));
        }
    }
    std::size_t single = 0;
    for (const auto& [edge, points] : points_of) {
        single += points.size() == 1 ? 1 : 0;
        CHECK((points.size() == 1 || points[0] == points[1])); // to the last bit
    }
    CHECK(mesh.outline.size() == single);
    for (std::size_t k = 0; k < mesh.outline.size(); ++k) {
        const OutlineEdge& side = mesh.outline[k];
        const OutlineEdge& next = mesh.outline[(k + 1) % mesh.outline.size()];
        CHECK(mesh.quads[static_cast<std::size_t>(side.quad)]
                        [static_cast<std::size_t>(side.side + 1) % 4] ==
              mesh.quads[static_cast<std::size_t>(next.quad)][static_cast<std::size_t>(next.side)]);
    }
    CHECK(mesh.vertices.size() + mesh.quads.size() == points_of.size() + 1); // Euler
}

} // namespace

TEST_CASE("the quads of a ring's sector lie between its arcs, on radii and circles") {
    const double turn = std::numbers::pi / 2;
    std::vector<int> quad_block;
    const Mesh mesh = assembled_mesh(ring_sector(1, 2, turn), 0.6, 3, &quad_block);
    REQUIRE(mesh.quads.size() == 12); // 2 by 6: 1 / 0.6 and pi / 0.6, less 15 % of a quad each
    check_numbers(mesh);
    CHECK(quad_block == std::vector<int>(12, 0));
    CHECK(mesh.outline.size() == 16);
    const std::vector<double>& share = lobatto_shares(3);
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        for (Index k = 0; k < 16; ++k) {
            const Vector2d p = mesh.geometry[q].col(k);
            // Coons' surface between two arcs of one centre has circles of even steps
            const double radius = 2 * (p.norm() - 1);
            const double sixth = std::atan2(p.y(), p.x()) / turn * 6;
            const auto on = [&](double at) {
                const double part = at - std::floor(at + 1e-7);
                return std::any_of(share.begin(), share.end(),
                                   [&](double s) { return std::abs(s - part) < 1e-5; });
            };
            CHECK(on(radius));
            CHECK(on(sixth));
        }
    }
    // the lines meet at right angles, chords of a sixth of them at half its turn less
    CHECK(worst_place(mesh).inner_sine == Approx(std::cos(turn / 12)));
}

TEST_CASE("blocks of a face with a corner too many meet in its middle, their points shared") {
    std::vector<int> quad_block;
    const Mesh mesh = assembled_mesh(polygon_graph({{0, 0}, {2, 0}, {3, 1}, {1, 2}, {0, 1}}), 0.7,
                                     2, &quad_block);
    check_numbers(mesh);
    REQUIRE(quad_block.size() == mesh.quads.size());
    CHECK(std::is_sorted(quad_block.begin(), quad_block.end()));
    CHECK(quad_block.back() == 4);
    double area = 0;
    for (const OutlineEdge& side : mesh.outline) {
        const auto& quad = mesh.quads[static_cast<std::size_t>(side.quad)];
        const Vector2d a =
            mesh.vertices[static_cast<std::size_t>(quad[static_cast<std::size_t>(side.side)])];
        const Vector2d b = mesh.vertices[static_cast<std::size_t>(
            quad[static_cast<std::size_t>(side.side + 1) % 4])];
        area += (a.x() * b.y() - a.y() * b.x()) / 2;
    }
    CHECK(area == Approx(4)); // shoelace of the five corners by hand
    CHECK(worst_place(mesh).inner_sine > 0.5);
}

TEST_CASE("a station's line is there when its edges cover the whole width, from right to left") {
    Mesh mesh = grid_mesh({-0.5, 0.1, 0.3, 0.5}, {-0.2, 0.05, 0.2});
    mesh.lines.clear();
    const Planform planform = rectangle_planform(1, 0.4);
    find_station_lines(mesh, planform, {-0.5, 0.1, 0.2, 0.3 + 4e-5, 0.5});
    REQUIRE(mesh.lines.size() == 4); // none at 0.2
    CHECK(mesh.lines[2].x == Approx(0.3 + 4e-5));
    for (const StationLine& line : mesh.lines) {
        REQUIRE(line.edges.size() == 2);
        double y = -0.2;
        for (const int e : line.edges) {
            const auto& edge = mesh.edges[static_cast<std::size_t>(e)];
            const Vector2d a = mesh.vertices[static_cast<std::size_t>(edge[0])];
            const Vector2d b = mesh.vertices[static_cast<std::size_t>(edge[1])];
            CHECK(std::min(a.y(), b.y()) == y);
            CHECK(a.x() == Approx(line.x).margin(5e-5));
            y = std::max(a.y(), b.y());
        }
        CHECK(y == 0.2);
    }
    mesh.lines.clear(); // the middle line's upper vertex leaves the station
    mesh.vertices[9].x() += 1e-4;
    find_station_lines(mesh, planform, {-0.5, 0.1});
    REQUIRE(mesh.lines.size() == 1);
    CHECK(mesh.lines[0].x == -0.5);
}
