#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "mesh/board/planform.hpp"

using Eigen::Vector2d;
using vrid::Planform;

namespace {

std::vector<Vector2d> circle(int n, double r) {
    std::vector<Vector2d> points;
    for (int k = 0; k < n; ++k) {
        const double angle = 2 * std::numbers::pi * k / n;
        points.emplace_back(r * std::cos(angle), r * std::sin(angle));
    }
    return points;
}

double error_of_circle(int n) {
    const Planform planform = vrid::spline_planform(circle(n, 0.2), {}, 0.2);
    double worst = 0;
    for (int piece = 0; piece < n; ++piece) {
        for (int k = 0; k <= 8; ++k) {
            worst = std::max(worst, std::abs(point_at(planform, {piece, k / 8.0}).norm() - 0.2));
        }
    }
    return worst;
}

} // namespace

TEST_CASE("a periodic spline through a circle's points is the circle to fourth order") {
    const double coarse = error_of_circle(24);
    const double fine = error_of_circle(48);
    CHECK(coarse < 1e-4 * 0.2);
    CHECK(coarse / fine > 12);
    const double area_of = area(vrid::spline_planform(circle(200, 0.2), {}, 0.2));
    CHECK(area_of == Approx(std::numbers::pi * 0.04).epsilon(1e-7));
}

TEST_CASE("a periodic spline is smooth at every point, its first included") {
    const Planform planform = vrid::spline_planform(circle(30, 0.2), {}, 0.2);
    for (int k = 0; k < 30; ++k) {
        const Vector2d a = tangent_at(planform, {k, 1}).normalized();
        const Vector2d b = tangent_at(planform, {(k + 1) % 30, 0}).normalized();
        CHECK((a - b).norm() < 1e-12);
    }
}

TEST_CASE("a corner breaks the spline: a drawn rectangle keeps its straight sides") {
    std::vector<Vector2d> points;
    std::vector<bool> corner;
    const std::vector<Vector2d> corners{{-0.4, -0.1}, {0.4, -0.1}, {0.4, 0.1}, {-0.4, 0.1}};
    for (std::size_t k = 0; k < 4; ++k) {
        for (int i = 0; i < 8; ++i) {
            const Vector2d& a = corners[k];
            points.emplace_back(a + i / 8.0 * (corners[(k + 1) % 4] - a));
            corner.push_back(i == 0);
        }
    }
    for (const bool backwards : {false, true}) {
        if (backwards) {
            std::reverse(points.begin(), points.end());
            std::reverse(corner.begin(), corner.end());
        }
        const Planform planform = vrid::spline_planform(points, corner, 0.6);
        CHECK(area(planform) == Approx(0.16).epsilon(1e-12));
        CHECK(width_at(planform, 0.33) == Approx(0.2).epsilon(1e-12));
    }
}

TEST_CASE("drawn outlines with too few points, or that cross themselves, are refused") {
    CHECK_THROWS_AS(vrid::spline_planform(circle(19, 0.2), {}, 0.2), vrid::InputError);
    std::vector<Vector2d> eight;
    for (int k = 0; k < 40; ++k) {
        const double angle = 2 * std::numbers::pi * (k + 0.3) / 40;
        eight.emplace_back(0.3 * std::sin(angle),
                           0.1 * std::sin(2 * angle) + 0.02 * std::cos(angle));
    }
    CHECK_THROWS_AS(vrid::spline_planform(eight, {}, 0.2), vrid::InputError);
}
