#include "solver/response/circle_fit.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("points on a circle give its curvature, either way round and however weighted") {
    const double R = GENERATE(0.8, 6.0, 500.0);
    const double sign = GENERATE(1.0, -1.0);
    Eigen::Matrix2Xd points(2, 41);
    Eigen::VectorXd weight(41);
    for (int i = 0; i <= 40; ++i) {
        const double x = -0.6 + 0.03 * i;
        points.col(i) << x + 0.2, sign * (R - std::sqrt(R * R - x * x)) + 0.7;
        weight(i) = 1 + i % 3;
    }
    CHECK(fitted_curvature(points, weight) == Approx(sign / R).epsilon(1e-9));
}

TEST_CASE("points on a straight slanted line have no curvature") {
    Eigen::Matrix2Xd points(2, 5);
    points << 0, 1, 2, 3, 4, 1, 1.5, 2, 2.5, 3;
    CHECK(std::abs(fitted_curvature(points, Eigen::VectorXd::Ones(5))) < 1e-12);
}
