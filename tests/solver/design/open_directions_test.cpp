// What readings leave open, on models small enough to see it.
#include <cmath>

#include <catch2/catch.hpp>

#include <Eigen/LU>

#include "solver/design/open_directions.hpp"

using namespace vrid;

namespace {

Eigen::VectorXd ones(int count) {
    return Eigen::VectorXd::Ones(count);
}

} // namespace

TEST_CASE("two values of which only the sum is read are open in their difference") {
    Eigen::MatrixXd J(1, 2);
    J << 10, 10;
    const auto open = open_directions(J, ones(2), {false, false});
    REQUIRE(open.size() == 1);
    CHECK(open[0].step(0) == Approx(-open[0].step(1)));
    CHECK(open[0].step.norm() == Approx(1));
    CHECK(open[0].sd_left == Approx(1));
    CHECK(open[0].largest_effect < 1e-12);
}

TEST_CASE("a camber warm and one in the freezer leave T0 and alpha of the base nearly open") {
    // camber = c alpha (T - T0) at 20 and -20 degrees: alpha 180 +- 54, T0 52 +- 8, readings good
    // to a millimetre: (T0 - T) c dalpha and c alpha dT0 with c alpha = 0.05 mm/K
    Eigen::MatrixXd J(2, 2);
    const double per_kelvin = 0.05 / 1.0;
    J << per_kelvin * 32 * 0.3, per_kelvin * 8, per_kelvin * 72 * 0.3, per_kelvin * 8;
    const auto open = open_directions(J, ones(2), {false, false});
    REQUIRE(open.size() == 1);
    CHECK(open[0].step(0) * open[0].step(1) < 0); // more expansion over fewer degrees
    // by hand: the lesser eigenvalue of J^T J
    const Eigen::Matrix2d normal = J.transpose() * J;
    const double half = normal.trace() / 2;
    const double least = half - std::sqrt(half * half - normal.determinant());
    CHECK(open[0].sd_left == Approx(1 / std::sqrt(1 + least)));
    // five times as good readings tell them apart
    CHECK(open_directions(5 * J, ones(2), {false, false}).empty());
}

TEST_CASE(
    "what one value alone, a value at its limit or one without a tolerance leaves is not said") {
    Eigen::MatrixXd J(1, 2);
    J << 10, 0;
    CHECK(open_directions(J, ones(2), {false, false}).empty());
    J << 10, 10;
    CHECK(open_directions(J, ones(2), {false, true}).empty());
    CHECK(open_directions(J, Eigen::Vector2d(1, 0), {false, false}).empty());
    // one without a tolerance takes all that its reading says; a second reading gives it away
    Eigen::MatrixXd two(2, 3);
    two << 10, 10, 4, 0, 0, 4;
    const Eigen::Vector3d prior(1, 1, 0);
    CHECK(open_directions(two.topRows(1), prior, {false, false, false}).empty());
    CHECK(open_directions(two, prior, {false, false, false}).size() == 1);
}
