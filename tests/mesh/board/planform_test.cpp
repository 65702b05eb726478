#include "mesh/board/planform.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

using Eigen::Vector2d;
using vrid::Planform;

namespace {

// The reference board in numbers: tail 286, waist 250 at -18.5, nose 291 [mm].
vrid::PlanformShape reference_shape() {
    return {1.135, 0.25, 0.291, 0.286, -0.0185, 0.22, 0.215, 0.6, 0.6};
}

double turn_between_pieces(const Planform& planform, int piece) {
    const int next = (piece + 1) % static_cast<int>(planform.outline.size());
    const Vector2d a = tangent_at(planform, {piece, 1}).normalized();
    const Vector2d b = tangent_at(planform, {next, 0}).normalized();
    return std::abs(std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b)));
}

} // namespace

TEST_CASE("the parametric outline is closed and keeps its tangent at contact stations and tips") {
    const Planform planform = parametric_planform(reference_shape());
    for (int k = 0; k < static_cast<int>(planform.outline.size()); ++k) {
        const int next = (k + 1) % static_cast<int>(planform.outline.size());
        CHECK((point_at(planform, {k, 1}) - point_at(planform, {next, 0})).norm() < 1e-13);
        CHECK(turn_between_pieces(planform, k) < 1e-12);
    }
}

TEST_CASE("the parametric outline has the widths and lengths it was asked for") {
    const Planform planform = parametric_planform(reference_shape());
    CHECK(width_at(planform, -0.0185) == Approx(0.250).epsilon(1e-12));
    CHECK(width_at(planform, 0.5675) == Approx(0.291).epsilon(1e-12));
    CHECK(width_at(planform, -0.5675) == Approx(0.286).epsilon(1e-12));
    CHECK(x_extent(planform)[0] == Approx(-0.7825).epsilon(1e-12));
    CHECK(x_extent(planform)[1] == Approx(0.7875).epsilon(1e-12));
    CHECK(width_at(planform, 0.8) == 0);
}

TEST_CASE("the reference board has a sidecut radius near 8.4 m, the same on both sides") {
    const auto radius = sidecut_radius(parametric_planform(reference_shape()));
    CHECK(radius[0] == Approx(8.4).epsilon(0.005));
    CHECK(radius[1] == Approx(radius[0]).epsilon(1e-12));
}

TEST_CASE("the sidecut radius is that of the circle through the three half widths") {
    // chord c = 1.2, depth s = 0.02 at the middle: R = c^2 / 8 s + s / 2
    const Planform planform =
        vrid::parametric_planform({1.2, 0.25, 0.29, 0.29, 0, 0.2, 0.2, 0.5, 0.5});
    CHECK(sidecut_radius(planform)[0] == Approx(1.44 / 0.16 + 0.01).epsilon(1e-10));
}

TEST_CASE("a planform without sidecut, and one that bulges, are made too") {
    const Planform straight =
        vrid::parametric_planform({1.0, 0.25, 0.25, 0.25, 0, 0.2, 0.2, 0.5, 0.5});
    CHECK(std::isinf(sidecut_radius(straight)[0]));
    CHECK(width_at(straight, 0.3) == Approx(0.25).epsilon(1e-12));
    const Planform bulging =
        vrid::parametric_planform({1.0, 0.28, 0.25, 0.25, 0, 0.2, 0.2, 0.5, 0.5});
    CHECK(width_at(bulging, 0) == Approx(0.28).epsilon(1e-12));
    CHECK(area(bulging) > area(straight));
}

TEST_CASE("a rectangle has the area, centroid and width of one, its ends included") {
    const Planform plate = vrid::rectangle_planform(0.4, 0.1);
    CHECK(area(plate) == Approx(0.04).epsilon(1e-14));
    CHECK(centroid(plate).norm() < 1e-15);
    CHECK(plate.running_length == 0.4);
    for (const double x : {-0.2, 0.0, 0.2}) {
        CHECK(width_at(plate, x) == Approx(0.1).epsilon(1e-14));
    }
    CHECK(contains(plate, {0.19, 0.04}));
    CHECK_FALSE(contains(plate, {0.19, 0.06}));
}

TEST_CASE("a polygon may be given in either direction") {
    const std::vector<Vector2d> corners{{0, 0},     {0.3, 0},   {0.3, 0.1},
                                        {0.1, 0.1}, {0.1, 0.3}, {0, 0.3}};
    const std::vector<Vector2d> backwards(corners.rbegin(), corners.rend());
    CHECK(area(vrid::polygon_planform(corners, 0.2)) == Approx(0.05).epsilon(1e-13));
    CHECK(area(vrid::polygon_planform(backwards, 0.2)) == Approx(0.05).epsilon(1e-13));
}

TEST_CASE("outlines that cross themselves or have no area are refused") {
    CHECK_THROWS_AS(vrid::polygon_planform({{0, 0}, {1, 1}, {1, 0}, {0, 1.2}}, 0.5),
                    vrid::InputError);
    CHECK_THROWS_AS(vrid::polygon_planform({{0, 0}, {1, 0}, {0.5, 0}}, 0.5), vrid::InputError);
    CHECK_THROWS_AS(vrid::polygon_planform({{0, 0}, {1, 0}}, 0.5), vrid::InputError);
}
