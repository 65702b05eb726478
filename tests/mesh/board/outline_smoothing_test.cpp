#include "mesh/board/outline_smoothing.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "drawn_shapes.hpp"
#include "mesh/board/outline_piece.hpp"
#include "tests/asserted.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Vector2d;

namespace {

double farthest(const Planform& planform, const Planform& from) {
    const OutlineDistance distance(from);
    double most = 0;
    for (int piece = 0; piece < static_cast<int>(planform.outline.size()); ++piece) {
        for (int k = 0; k < 4; ++k) {
            most = std::max(most, distance(point_at(planform, {piece, k / 4.0})));
        }
    }
    return most;
}

double waist_x(const Planform& planform) {
    double best = 0;
    for (double x = -0.4; x <= 0.4; x += 0.0005) {
        best = width_at(planform, x) < width_at(planform, best) ? x : best;
    }
    return best;
}

// Changes of the curvature's sign in the middle four fifths of the running length, both sides.
int wiggles(const Planform& planform) {
    int changes = 0;
    double last = 0;
    for (const OutlinePiece& piece : planform.outline) {
        const Vector2d d = tangent_at(piece, 0.5);
        const Vector2d b = bend_at(piece, 0.5);
        const double bend = d.x() * b.y() - d.y() * b.x();
        const bool inside = std::abs(point_at(piece, 0.5).x()) < 0.4 * planform.running_length;
        changes += inside && last * bend < 0 ? 1 : 0;
        last = inside ? bend : 0;
    }
    return changes;
}

} // namespace

TEST_CASE("of 400 points rounded to whole millimetres the exact outline comes back, without "
          "wiggles") {
    for (unsigned seed = 0; seed < few_with_asserts(6); ++seed) {
        INFO("seed " << seed);
        const PlanformShape shape = ordinary_shape(seed);
        const Planform exact = parametric_planform(shape);
        const double tolerance = rounding(0);
        const DrawnPlanform found =
            drawn_planform(drawn(exact, 400, 0), shape.running_length, tolerance);
        CHECK(found.fit.largest_move < tolerance);
        CHECK(found.fit.largest_move > tolerance / 2); // of 400 roundings one is nearly that
        CHECK(farthest(found.planform, exact) < tolerance);
        CHECK(wiggles(found.planform) == 0);
        CHECK(area(found.planform) == Approx(area(exact)).epsilon(5e-4));
        // half the tolerance over a tenth of the sidecut's depth: what rounding leaves unknown
        CHECK(waist_x(found.planform) == Approx(waist_x(exact)).margin(0.015));
        const double sharpest = sidecut_radius(exact)[0];
        CHECK(sidecut_radius(found.planform)[0] == Approx(sharpest).epsilon(0.05));
        CHECK(sidecut_radius(found.planform)[1] == Approx(sharpest).epsilon(0.05));
    }
}

TEST_CASE("points stay within their rounding, and where they are drawn when it is 0") {
    for (const int decimals : {0, 1, 3}) {
        for (const int points : {24, 60, 250}) {
            const DrawnOutline outline =
                drawn(parametric_planform(ordinary_shape(11)), points, decimals);
            const double tolerance = rounding(decimals);
            const auto smooth = smoothed_points(outline.points, outline.corner, tolerance);
            REQUIRE(smooth.size() == outline.points.size());
            for (std::size_t i = 0; i < smooth.size(); ++i) {
                CHECK((smooth[i] - outline.points[i]).cwiseAbs().maxCoeff() < tolerance);
            }
            CHECK(smoothed_points(outline.points, outline.corner, 0) == outline.points);
        }
    }
}

TEST_CASE("points with all the digits of double precision stay where they are drawn") {
    for (const int points : {24, 60, 250}) {
        const DrawnOutline outline = drawn(parametric_planform(ordinary_shape(7)), points, 9);
        for (const double tolerance : {1e-8, 1e-9, 1e-12, 1e-16, 1e-18, 1e-20}) {
            INFO(points << " points, tolerance " << tolerance);
            const auto smooth = smoothed_points(outline.points, outline.corner, tolerance);
            double most = 0;
            for (std::size_t i = 0; i < smooth.size(); ++i) {
                REQUIRE(smooth[i].allFinite());
                most = std::max(most, (smooth[i] - outline.points[i]).cwiseAbs().maxCoeff());
            }
            CHECK(most < 1.001 * tolerance + 1e-16);
            CHECK((tolerance >= 1e-9 || most == 0));
        }
    }
}

TEST_CASE("where few points show a strong shape they move little: rounding is not what bends it") {
    const PlanformShape shape = ordinary_shape(3);
    const DrawnOutline outline = drawn(parametric_planform(shape), 24, 1);
    const auto smooth = smoothed_points(outline.points, outline.corner, rounding(1));
    for (std::size_t i = 0; i < smooth.size(); ++i) {
        if (std::abs(smooth[i].x()) > shape.running_length / 2) { // the tips
            CHECK((smooth[i] - outline.points[i]).norm() < 0.1 * rounding(1));
        }
    }
}

TEST_CASE("a symmetric drawing stays symmetric, a backwards one is the same") {
    // to what the mesher takes for a mirror image: 1e-9 m
    const Planform exact = parametric_planform(ordinary_shape(5));
    DrawnOutline outline = drawn(exact, 300, 0);
    std::erase_if(outline.points, [](const Vector2d& p) { return p.y() < 0.0005; });
    outline.points.insert(outline.points.begin(), Vector2d(x_extent(exact)[1], 0));
    outline.points.emplace_back(x_extent(exact)[0], 0);
    outline.corner.assign(outline.points.size(), false);
    outline = with_mirror_image(outline);
    const auto smooth = smoothed_points(outline.points, outline.corner, rounding(0));
    const std::size_t n = smooth.size();
    CHECK(std::abs(smooth[0].y()) < 1e-10);
    for (std::size_t i = 1; i < n; ++i) {
        CHECK((smooth[i] - Vector2d(smooth[n - i].x(), -smooth[n - i].y())).norm() < 1e-10);
    }
    auto points = outline.points;
    std::reverse(points.begin(), points.end());
    auto backwards = smoothed_points(points, outline.corner, rounding(0));
    std::reverse(backwards.begin(), backwards.end());
    for (std::size_t i = 0; i < n; ++i) {
        CHECK((smooth[i] - backwards[i]).norm() < 1e-10);
    }
}

TEST_CASE("corners stay corners: a rounded drawing of a plate has straight sides and its angles") {
    DrawnOutline outline;
    const std::vector<Vector2d> corners{
        {-0.4004, -0.1}, {0.4004, -0.1003}, {0.4, 0.1004}, {-0.4, 0.0998}};
    constexpr int steps = 40;
    for (std::size_t k = 0; k < 4; ++k) {
        for (int i = 0; i < steps; ++i) {
            const Vector2d p =
                corners[k] + static_cast<double>(i) / steps * (corners[(k + 1) % 4] - corners[k]);
            outline.points.emplace_back(std::round(p.x() * 1e3) / 1e3,
                                        std::round(p.y() * 1e3) / 1e3);
            outline.corner.push_back(i == 0);
        }
    }
    const auto smooth = smoothed_points(outline.points, outline.corner, rounding(0));
    for (std::size_t k = 0; k < 4; ++k) {
        const Vector2d from = smooth[k * steps];
        const Vector2d side = (smooth[(k + 1) % 4 * steps] - from).normalized();
        for (std::size_t i = 1; i < steps; ++i) {
            const Vector2d to = smooth[k * steps + i] - from;
            CHECK(std::abs(side.x() * to.y() - side.y() * to.x()) < 0.3e-3);
        }
        CHECK((from - corners[k]).norm() < 0.7e-3);
    }
}
