#include "solver/system/numbering.hpp"

#include <set>

#include <catch2/catch.hpp>

#include "mesh/lobatto.hpp"
#include "tests/mesh/grid_mesh.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

// Curved, of degree 2, some of its edges against the way round their quads.
Mesh curved_mesh() {
    return tests::grid_mesh({0, 1, 2.5}, {0, 0.7, 2}, 2, [](const Vector2d& p) {
        return Vector2d(p.x() + 0.1 * p.y() * p.y(), p.y() + 0.05 * p.x() * p.x());
    });
}

} // namespace

TEST_CASE("nodes are numbered vertices, edges, insides, and each place is one node") {
    const Mesh mesh = curved_mesh();
    for (const int p : {1, 2, 3, 5}) {
        const Numbering numbering = number_nodes(mesh, p);
        CHECK(numbering.nodes == 9 + 12 * (p - 1) + 4 * (p - 1) * (p - 1));
        std::set<int> used;
        const Eigen::MatrixXd to_nodes = geometry_to_points(mesh, lobatto(p + 1).point);
        for (std::size_t q = 0; q < 4; ++q) {
            const std::vector<int>& nodes = numbering.quad_nodes[q];
            REQUIRE(static_cast<int>(nodes.size()) == (p + 1) * (p + 1));
            const Eigen::Matrix2Xd points = quad_points(mesh, static_cast<int>(q), to_nodes);
            for (std::size_t k = 0; k < nodes.size(); ++k) {
                used.insert(nodes[k]);
                CHECK((numbering.position.col(nodes[k]) - points.col(static_cast<Eigen::Index>(k)))
                          .norm() < 1e-14);
            }
            CHECK(nodes.front() == mesh.quads[q][0]);
            CHECK(nodes[static_cast<std::size_t>(p)] == mesh.quads[q][1]);
            CHECK(nodes.back() == mesh.quads[q][2]);
        }
        CHECK(static_cast<int>(used.size()) == numbering.nodes);
        CHECK(*used.rbegin() == numbering.nodes - 1);
        for (int e = 0; e < 12; ++e) {
            const std::vector<int> nodes = edge_nodes(mesh, numbering, e);
            REQUIRE(static_cast<int>(nodes.size()) == p + 1);
            const auto& ends = mesh.edges[static_cast<std::size_t>(e)];
            CHECK(nodes.front() == ends[0]);
            CHECK(nodes.back() == ends[1]);
            const Vector2d a = mesh.vertices[static_cast<std::size_t>(ends[0])];
            for (std::size_t k = 1; k < nodes.size(); ++k) { // on and on, away from its first end
                CHECK((numbering.position.col(nodes[k]) - a).norm() >
                      (numbering.position.col(nodes[k - 1]) - a).norm());
            }
        }
    }
}

TEST_CASE("points of a quad are those of its polynomial, xi fastest") {
    const Mesh mesh = curved_mesh();
    const Eigen::Vector3d at(-0.4, 0.2, 0.9);
    const Eigen::Matrix2Xd points = quad_points(mesh, 1, geometry_to_points(mesh, at));
    REQUIRE(points.cols() == 9);
    for (int b = 0; b < 3; ++b) {
        for (int a = 0; a < 3; ++a) {
            const double x = 1.75 + 0.75 * at(a), y = 0.35 + 0.35 * at(b); // quad 1: 1..2.5, 0..0.7
            CHECK((points.col(3 * b + a) - Vector2d(x + 0.1 * y * y, y + 0.05 * x * x)).norm() <
                  1e-14);
        }
    }
}
