#include "solver/system/tilted_edge.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// An edge of three nodes with a compliance of full rank.
EdgeCompliance three_nodes(Side side) {
    EdgeCompliance edge;
    edge.line.side = side;
    edge.line.X.resize(2, 3);
    edge.line.X << -0.4, 0, 0.5, 0.1, 0.08, 0.12;
    edge.feet.rear_x = -0.2;
    edge.feet.front_x = 0.3;
    edge.rear_place = -0.19;
    edge.front_place = 0.28;
    const MatrixXd some = MatrixXd::NullaryExpr(6, 6, [](Eigen::Index i, Eigen::Index k) {
        return std::sin(1.0 + 3.0 * static_cast<double>(i) + static_cast<double>(k * k));
    });
    edge.C = some * some.transpose() + MatrixXd::Identity(6, 6);
    edge.R = MatrixXd::NullaryExpr(6, foot_motions, [](Eigen::Index i, Eigen::Index k) {
        return std::cos(2.0 * static_cast<double>(i) + 5.0 * static_cast<double>(k));
    });
    edge.K.setRandom();
    return edge;
}

} // namespace

TEST_CASE("a tilted edge knows motions and forces along the gradient of its height alone") {
    for (const Side side : {Side::left, Side::right}) {
        const EdgeCompliance edge = three_nodes(side);
        EdgePoints points;
        points.X = edge.line.X;
        const Eigen::Vector3d rest(0.01, 0, 0.02);
        const double tilt = 0.7;
        const TiltedEdge tilted = tilt_edge(edge, points, rest, tilt);
        // a height over the snow: w cos t less y sin t on the left, y the way out there
        const double v = side == Side::left ? -std::sin(tilt) : std::sin(tilt);
        CHECK(gradient_v(side, tilt) == v);
        MatrixXd along(6, 3); // forces of size one along the gradient
        along << v * MatrixXd::Identity(3, 3), std::cos(tilt) * MatrixXd::Identity(3, 3);
        const MatrixXd C = along.transpose() * edge.C * along;
        CHECK(tilted.added_compliance == Approx(1e-10 * C.diagonal().maxCoeff()));
        CHECK((tilted.C - C - tilted.added_compliance * MatrixXd::Identity(3, 3)).norm() <
              1e-14 * C.norm());
        CHECK((tilted.C * tilted.C_inverse - MatrixXd::Identity(3, 3)).norm() < 1e-9);
        CHECK((tilted.R - along.transpose() * edge.R.leftCols(free_motions)).norm() < 1e-14);
        CHECK((tilted.K - edge.K.topLeftCorner<free_motions, free_motions>()).norm() == 0);
        for (Eigen::Index k = 0; k < 3; ++k) {
            CHECK(tilted.H0(k) == Approx(std::cos(tilt) * rest(k) + v * points.X(1, k)));
        }
        CHECK(tilted.rear_x == -0.2);
        CHECK(tilted.front_x == 0.3);
        CHECK(tilted.rear_place == -0.19);
        CHECK(tilted.front_place == 0.28);
        const TiltedEdge level = tilt_edge(edge, points, rest, 0); // its own heights
        CHECK((level.H0 - rest).norm() < 1e-16);
    }
}
