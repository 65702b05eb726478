#include "solver/shop/region.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

constexpr double pi = std::numbers::pi;
const Region unit_box = rectangle_region({0, 1}, {0, 1});
const Region moved_box = rectangle_region({0.5, 1.5}, {0.25, 1.25});

} // namespace

TEST_CASE("areas of what is common, united and left over add up") {
    CHECK(area(common(unit_box, moved_box)) == Approx(0.375));
    CHECK(area(united(unit_box, moved_box)) == Approx(1.625));
    CHECK(area(without(unit_box, moved_box)) == Approx(0.625));
    CHECK(area(without(moved_box, unit_box)) == Approx(0.625));
    CHECK(common(unit_box, rectangle_region({2, 3}, {0, 1})).empty());
    const Region hole = without(unit_box, rectangle_region({0.4, 0.6}, {0.4, 0.6}));
    CHECK(hole.loops.size() == 2);
    CHECK(area(hole) == Approx(0.96)); // the hole's border runs clockwise
    CHECK(area(polygon_region({{0, 0}, {0, 2}, {3, 0}})) == Approx(3)); // given clockwise
    CHECK(area(planform_region(rectangle_planform(1.5, 0.3))) == Approx(0.45));
}

TEST_CASE("an inset moves every border inwards, corners that point inwards by an arc") {
    CHECK(area(inset(unit_box, 0.1)) == Approx(0.64));
    for (const double too_far : {0.501, 0.51, 0.7, 10.0}) { // turned over both ways
        CHECK(inset(unit_box, too_far).empty());
        CHECK(inset(planform_region(rectangle_planform(1.5, 0.3)), too_far + 0.3).empty());
    }
    CHECK(area(inset(unit_box, 0)) == area(unit_box));
    // an L of three unit squares: its own border by 0.1, a quarter of a disc round the inner corner
    const Region L = polygon_region({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}});
    CHECK(area(inset(L, 0.1)) ==
          Approx(1.8 * 0.8 + 0.8 * 1.0 + 0.01 - pi * 0.01 / 4).epsilon(1e-6));
    const Region hole = without(unit_box, rectangle_region({0.4, 0.6}, {0.4, 0.6}));
    CHECK(area(inset(hole, 0.1)) ==
          Approx(0.64 - (0.04 + 4 * 0.2 * 0.1 + pi * 0.01)).epsilon(1e-6));
    const Extent e = extent(inset(moved_box, 0.1));
    CHECK(e.x[0] == Approx(0.6));
    CHECK(e.x[1] == Approx(1.4));
    CHECK(e.y[0] == Approx(0.35));
    CHECK(e.y[1] == Approx(1.15));
}

TEST_CASE("mirrored and turned regions keep their area and its sign") {
    const Region image = mirrored(moved_box);
    CHECK(area(image) == Approx(1));
    CHECK(extent(image).y[0] == -1.25);
    const Region upright = turned(moved_box, pi / 2); // x to y, y to -x
    CHECK(area(upright) == Approx(1));
    CHECK(extent(upright).x[0] == Approx(-1.25));
    CHECK(extent(upright).x[1] == Approx(-0.25));
    CHECK(extent(upright).y[0] == Approx(0.5));
}

TEST_CASE("parts that do not touch come apart with their holes, from tail to nose, right to left") {
    Region all = united(rectangle_region({2, 3}, {0, 1}), rectangle_region({0, 1}, {0.5, 1}));
    all = united(all, rectangle_region({0, 1}, {-1, -0.5}));
    all = united(all, rectangle_region({5, 5 + 2e-4}, {0, 4e-4})); // 0.08 mm2: a crumb
    all = without(all, rectangle_region({2.4, 2.6}, {0.4, 0.6}));
    const auto parts = connected_parts(all);
    REQUIRE(parts.size() == 3);
    CHECK(extent(parts[0]).y[0] == -1);
    CHECK(extent(parts[1]).y[0] == 0.5);
    CHECK(parts[2].loops.size() == 2);
    CHECK(area(parts[2]) == Approx(0.96));
}

TEST_CASE("a simplified border leaves out what lies within the tolerance, and nothing else") {
    const Region bumpy =
        polygon_region({{0, 0}, {0.5, -1e-5}, {1, 0}, {1, 1}, {0.5, 1.01}, {0, 1}});
    CHECK(simplified(bumpy, 1e-4).loops[0].size() == 5);
    CHECK(simplified(bumpy, 1e-6).loops[0].size() == 6);
    CHECK(simplified(bumpy, 0.1).loops[0].size() == 4);
}
