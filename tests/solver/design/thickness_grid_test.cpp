#include "solver/design/thickness_grid.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Index;

TEST_CASE("what is known at a grid's points is known between them as its polynomial") {
    const ThicknessGrid grid(2e-3, 8e-3, 5);
    REQUIRE(grid.points.size() == 5);
    for (Index i = 0; i < 5; ++i) { // roots of Chebyshev's polynomial of the fifth degree
        const double t = (grid.points(i) - 5e-3) / 3e-3;
        CHECK(16 * std::pow(t, 5) - 20 * std::pow(t, 3) + 5 * t == Approx(0).margin(1e-12));
        CHECK((i == 0 || grid.points(i) > grid.points(i - 1)));
    }
    Eigen::VectorXd at(4);
    at << 2e-3, 3.3e-3, grid.points(3), 8e-3; // one of them a point itself
    const Eigen::MatrixXd weights = grid.to_values(at);
    for (int power = 0; power <= 4; ++power) {
        const Eigen::VectorXd known = (1e3 * grid.points).array().pow(power);
        const Eigen::VectorXd found = weights * known;
        for (Index r = 0; r < 4; ++r) {
            CHECK(found(r) == Approx(std::pow(1e3 * at(r), power)));
        }
    }
    CHECK(weights(2, 3) == 1);
    CHECK(weights.row(2).cwiseAbs().sum() == 1);
    const ThicknessGrid one(5e-3, 5e-3, 1);
    CHECK(one.points(0) == 5e-3);
    CHECK(one.to_values(Eigen::VectorXd::Constant(1, 4e-3))(0, 0) == 1);
}
