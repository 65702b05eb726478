#include "mesh/board/drawn_outline.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

// The left half of an ellipse, nose first; `points` with both ends.
DrawnOutline half_ellipse(int points, double half_width = 0.14) {
    DrawnOutline half;
    for (int k = 0; k < points; ++k) {
        const double angle = std::numbers::pi * k / (points - 1);
        half.points.emplace_back(0.75 * std::cos(angle), half_width * std::sin(angle));
    }
    half.corner.assign(half.points.size(), false);
    return half;
}

std::string complaint(const DrawnOutline& half) {
    try {
        (void)with_mirror_image(half);
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("a half outline is closed by its mirror image, smooth across both tips") {
    for (const double side : {0.14, -0.14}) {
        DrawnOutline half = half_ellipse(61, side);
        half.points.front().y() = 0.9e-4; // within what a drawing may miss
        const DrawnOutline whole = with_mirror_image(half);
        CHECK(whole.points.size() == 120);
        const Planform planform = drawn_planform(whole, 1.1, 0).planform;
        CHECK(area(planform) == Approx(std::numbers::pi * 0.75 * 0.14).epsilon(1e-5));
        for (const OutlinePiece& piece : planform.outline) {
            const Vector2d way = piece.control[1] - piece.control[0];
            if (std::abs(piece.control[0].y()) < 1e-9) {
                CHECK(std::abs(way.x()) < 1e-9 * std::abs(way.y())); // across the board
            }
        }
        CHECK(std::abs(centroid(planform).y()) < 1e-12);
    }
}

TEST_CASE("a corner at the tip of a half outline stays a corner") {
    DrawnOutline half = half_ellipse(61);
    half.points.front() = {0.80, 0};
    half.corner.front() = true;
    half.corner[1] = true;
    const Planform planform = drawn_planform(with_mirror_image(half), 1.1, 0).planform;
    int corners = 0;
    for (const OutlinePiece& piece : planform.outline) {
        corners += piece.corner_at_start ? 1 : 0;
    }
    CHECK(corners == 3);
    CHECK(x_extent(planform)[1] == Approx(0.80).epsilon(1e-12));
}

TEST_CASE("a half outline that does not end on the centre line, or crosses it, is refused") {
    using Catch::Contains;
    DrawnOutline half = half_ellipse(61);
    half.points.back() = {-0.75, 1.1e-4};
    CHECK_THAT(complaint(half), Contains("ends at x = -750.000 mm, y = 0.110 mm"));
    half = half_ellipse(61);
    half.points[30].y() = -0.01;
    CHECK_THAT(complaint(half), Contains("between its ends, at x = 0.000 mm, y = -10.000 mm"));
    CHECK(is_one_sided(half_ellipse(61)));
    CHECK(is_one_sided(half_ellipse(61, -0.14)));
    CHECK_FALSE(is_one_sided(with_mirror_image(half_ellipse(61))));
}

TEST_CASE("places where few points leave the shape open are found, and only those") {
    CHECK(strayings(drawn_planform(with_mirror_image(half_ellipse(61)), 1.1, 0).planform).empty());
    DrawnOutline half = half_ellipse(61);
    half.points.erase(half.points.begin() + 1, half.points.begin() + 9); // a gap at the nose
    half.corner.resize(half.points.size());
    const auto found = strayings(drawn_planform(with_mirror_image(half), 1.1, 0).planform);
    REQUIRE(found.size() == 2); // on both sides
    CHECK(found[0].x > 0.65);
    CHECK(found[0].turn > std::numbers::pi / 3);
    CHECK(found[0].excess > 1);
}
