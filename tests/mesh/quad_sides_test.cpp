#include "mesh/quad_sides.hpp"

#include <catch2/catch.hpp>

#include "mesh/lobatto.hpp"
#include "tests/mesh/grid_mesh.hpp"

using namespace vrid;
using Eigen::Index;
using Eigen::Vector2d;

TEST_CASE("a quad's sides run round it, each from its vertex to the next") {
    // nine points, xi fastest: 0 1 2 / 3 4 5 / 6 7 8
    CHECK(side_points(0, 2) == std::vector<Index>{0, 1, 2});
    CHECK(side_points(1, 2) == std::vector<Index>{2, 5, 8});
    CHECK(side_points(2, 2) == std::vector<Index>{8, 7, 6});
    CHECK(side_points(3, 2) == std::vector<Index>{6, 3, 0});
}

TEST_CASE("two quads name the points of the edge between them in one order") {
    const Mesh mesh = tests::grid_mesh({0, 1, 3}, {0, 1, 4}, 3, [](const Vector2d& p) {
        return Vector2d(p.x() + 0.1 * p.y() * p.y(), p.y() - 0.2 * p.x());
    });
    int shared = 0;
    for (std::size_t q = 0; q < 4; ++q) {
        for (std::size_t side = 0; side < 4; ++side) {
            const auto edge = static_cast<std::size_t>(mesh.quad_edges[q][side]);
            const auto points = edge_points(mesh, q, side);
            // from the lower vertex to the higher
            CHECK(mesh.geometry[q].col(points.front()) ==
                  mesh.vertices[static_cast<std::size_t>(mesh.edges[edge][0])]);
            CHECK(mesh.geometry[q].col(points.back()) ==
                  mesh.vertices[static_cast<std::size_t>(mesh.edges[edge][1])]);
            for (std::size_t other = 0; other < q; ++other) {
                for (std::size_t k = 0; k < 4; ++k) {
                    if (mesh.quad_edges[other][k] == static_cast<int>(edge)) {
                        const auto same = edge_points(mesh, other, k);
                        for (std::size_t i = 0; i < same.size(); ++i) {
                            CHECK((mesh.geometry[q].col(points[i]) -
                                   mesh.geometry[other].col(same[i]))
                                      .norm() < 1e-15);
                        }
                        ++shared;
                    }
                }
            }
        }
    }
    CHECK(shared == 4);
}

// Coons (1967): the bilinearly blended surface is exact for a(u) + v b(u) + c(v) + u d(v).
TEST_CASE("between its sides a quad is filled as Coons' surface is") {
    const std::vector<double>& share = lobatto_shares(4);
    const auto exact = [](double u, double v) {
        return Vector2d(u * u * u - v * u * u + v * v + u * v * v * v,
                        2 * u * u + 3 * v * u * u * u - v * v * v + u * v * v);
    };
    Eigen::Matrix2Xd points = Eigen::Matrix2Xd::Constant(2, 25, 1e3); // what is to be filled
    for (std::size_t j = 0; j < 5; ++j) {
        for (std::size_t i = 0; i < 5; ++i) {
            if (i == 0 || j == 0 || i == 4 || j == 4) {
                points.col(static_cast<Index>(5 * j + i)) = exact(share[i], share[j]);
            }
        }
    }
    fill_quad(points, share);
    for (std::size_t j = 0; j < 5; ++j) {
        for (std::size_t i = 0; i < 5; ++i) {
            CAPTURE(i, j);
            CHECK((points.col(static_cast<Index>(5 * j + i)) - exact(share[i], share[j])).norm() <
                  1e-14);
        }
    }
}
