// Areas cut by straight sides.
#include "solver/strength/cut_disc.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

// Integral of x^a y^b over the polygon.
double moment(const Polygon& polygon, int a, int b) {
    double sum = 0;
    for (const AreaPoint& one : area_points(polygon)) {
        sum += one.area * std::pow(one.at.x(), a) * std::pow(one.at.y(), b);
    }
    return sum;
}

const Polygon square{{0, 0}, {1, 0}, {1, 1}, {0, 1}};

} // namespace

TEST_CASE("the rule is exact for degree 4, over polygons that are not convex, too") {
    for (int a = 0; a <= 4; ++a) {
        for (int b = 0; a + b <= 4; ++b) {
            CAPTURE(a, b);
            CHECK(moment(square, a, b) == Approx(1.0 / ((a + 1) * (b + 1))).epsilon(1e-12));
        }
    }
    // an L of three unit squares, its inner corner at (1, 1)
    const Polygon angle{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}};
    CHECK(moment(angle, 0, 0) == Approx(3));
    CHECK(moment(angle, 1, 0) == Approx(0.5 + 1.5 + 0.5));
    CHECK(moment(angle, 2, 2) == Approx(1.0 / 9 + 7.0 / 9 + 7.0 / 9));
}

TEST_CASE("the disc's polygon has its area and second moment; cut in half it has its centroid") {
    const double r = 0.7;
    const Polygon round = disc_polygon({0.2, -0.3}, r);
    const double pi = std::numbers::pi;
    CHECK(moment(round, 0, 0) == Approx(pi * r * r).epsilon(1e-12));
    CHECK(moment(round, 1, 0) == Approx(0.2 * pi * r * r).epsilon(1e-12));
    const Polygon middle = disc_polygon({0, 0}, r);
    CHECK(moment(middle, 2, 0) == Approx(pi * std::pow(r, 4) / 4).epsilon(3e-5));
    const Polygon half = clipped({{0, -2}, {2, -2}, {2, 2}, {0, 2}}, middle);
    CHECK(moment(half, 0, 0) == Approx(pi * r * r / 2).epsilon(1e-12));
    CHECK(moment(half, 1, 0) / moment(half, 0, 0) == Approx(4 * r / (3 * pi)).epsilon(1e-3));
}

TEST_CASE("a cut moves steadily: its mean changes by as much as the disc moves, in steps of 1e-6") {
    double last = 0;
    for (int step = 0; step < 400; ++step) {
        const double x = 0.9 + 1e-6 * step; // over the side of the square
        const Polygon part = clipped(square, disc_polygon({x, 0.4}, 0.2));
        const double mean = moment(part, 1, 0) / moment(part, 0, 0);
        if (step > 0) {
            CHECK(mean - last > 0);
            CHECK(mean - last < 1e-6);
        }
        last = mean;
    }
    CHECK(clipped(square, disc_polygon({1.3, 0.4}, 0.2)).empty());
    CHECK(moment(clipped(square, disc_polygon({0.5, 0.5}, 3)), 0, 0) == Approx(1));
}
