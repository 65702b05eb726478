#include "solver/design/moved_nodes.hpp"

#include <catch2/catch.hpp>

#include "tests/solver/system/grid_model.hpp"

using namespace vrid;
using Eigen::Index;
using Eigen::Vector2d;

namespace {

Vector2d sheared(const Vector2d& p) {
    return {2 * p.x() + 0.3 * p.y() + p.x() * p.y(), 1 - p.x()};
}

MeshVelocity shear_of(const Mesh& mesh) {
    MeshVelocity velocity;
    for (const Eigen::Matrix2Xd& points : mesh.geometry) {
        velocity.push_back(points);
        for (Index k = 0; k < points.cols(); ++k) {
            velocity.back().col(k) = sheared(points.col(k));
        }
    }
    return velocity;
}

} // namespace

TEST_CASE("a mesh's velocity is found at every node and every integration point") {
    const PlateModel model = tests::grid_model(3); // straight quads: their velocity is bilinear
    const Moves moves = moves_of(model, shear_of(model.mesh));
    for (int node = 0; node < model.numbering.nodes; ++node) {
        CHECK((moves.nodes.col(node) - sheared(model.numbering.position.col(node))).norm() < 1e-14);
    }
    Index column = 0;
    for (int quad = 0; quad < 8; ++quad) {
        const Eigen::Matrix2Xd points = integration_points(model, quad);
        for (Index k = 0; k < points.cols(); ++k) {
            CHECK((moves.points.col(column++) - sheared(points.col(k))).norm() < 1e-14);
        }
    }
    CHECK(column == moves.points.cols());
}

TEST_CASE("moved nodes and lines are the model's with a share of the move, from anywhere") {
    const PlateModel model = tests::grid_model(2);
    const Moves moves = moves_of(model, shear_of(model.mesh));
    PlateModel copy = bare_copy(model);
    CHECK(copy.stiffness.empty());
    CHECK(copy.rest == nullptr);
    CHECK(copy.numbering.quad_nodes == model.numbering.quad_nodes);
    for (const double share : {0.01, -0.02}) { // the second replaces the first
        move_nodes(copy, model, moves, share);
        CHECK((copy.numbering.position - model.numbering.position - share * moves.nodes).norm() <
              1e-15);
        for (std::size_t k = 0; k < 5; ++k) { // a line is told by its rightmost vertex
            const Vector2d at(model.mesh.lines[k].x, -0.2);
            CHECK(copy.mesh.lines[k].x == Approx(at.x() + share * sheared(at).x()));
        }
    }
}
