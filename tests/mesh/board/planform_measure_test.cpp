#include "mesh/board/planform.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using Eigen::Vector2d;
using vrid::OutlinePiece;
using vrid::Planform;

namespace {

// A disc of radius r in two arcs.
Planform disc(double r) {
    Planform planform;
    for (int k = 0; k < 2; ++k) {
        OutlinePiece arc;
        arc.radius = r;
        arc.centre = {0.1, 0.02};
        arc.angle_from = k * std::numbers::pi;
        arc.angle_to = (k + 1) * std::numbers::pi;
        planform.outline.push_back(arc);
    }
    planform.running_length = r;
    return planform;
}

} // namespace

TEST_CASE("area and centroid of a disc are exact") {
    const Planform planform = disc(0.3);
    CHECK(area(planform) == Approx(std::numbers::pi * 0.09).epsilon(1e-12));
    CHECK((centroid(planform) - Vector2d(0.1, 0.02)).norm() < 1e-13);
}

TEST_CASE("crossings of a station lie on it and are even in number") {
    const Planform planform =
        vrid::parametric_planform({1.135, 0.25, 0.291, 0.286, -0.0185, 0.22, 0.215, 0.6, 0.6});
    for (int k = 0; k <= 200; ++k) {
        const double x = -0.8 + 0.008 * k;
        const auto places = crossings(planform, x);
        REQUIRE(places.size() % 2 == 0);
        for (const auto& place : places) {
            CHECK(std::abs(point_at(planform, place).x() - x) < 1e-13);
        }
    }
}

TEST_CASE("width integrated over the stations is the area") {
    const Planform planform = disc(0.3);
    double sum = 0;
    constexpr int n = 2000; // midpoints in the angle, where the integrand is smooth
    for (int k = 0; k < n; ++k) {
        const double angle = std::numbers::pi * (k + 0.5) / n;
        sum += width_at(planform, 0.1 - 0.3 * std::cos(angle)) * 0.3 * std::sin(angle) *
               std::numbers::pi / n;
    }
    CHECK(sum == Approx(area(planform)).epsilon(1e-6));
}
