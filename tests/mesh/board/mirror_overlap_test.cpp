#include "mesh/board/check_zones.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

Zone rectangle(Range x, Range y) {
    Zone zone;
    zone.x = x;
    zone.y = y;
    return zone;
}

Zone ribbon(const Eigen::Vector2d& from, const Eigen::Vector2d& to, double width) {
    Zone zone;
    zone.ribbon = Ribbon{from, to, width};
    return zone;
}

const Planform plate = rectangle_planform(1.0, 0.2);

} // namespace

TEST_CASE("a zone beside the centre line and its mirror image have nothing in common") {
    CHECK(mirror_overlap({rectangle({-0.1, 0.1}, {0, 0.05})}, plate).area == 0);
    CHECK(mirror_overlap({ribbon({-0.3, 0.05}, {0.3, 0.05}, 0.1)}, plate).area < 1e-12);
}

TEST_CASE("a zone over the centre line overlaps its image by twice its shorter part") {
    const MirrorOverlap overlap = mirror_overlap({rectangle({-0.1, 0.2}, {-0.02, 0.05})}, plate);
    CHECK(overlap.area == Approx(0.3 * 0.04));
    CHECK_FALSE(overlap.whole);
    CHECK_FALSE(overlap.crossing);
    // as far as the board reaches: x to 0.5, y to 0.1
    CHECK(mirror_overlap({rectangle({0.4, 2}, {-0.15, 0.12})}, plate).area == Approx(0.1 * 0.2));
}

TEST_CASE("a symmetric zone is its own image") {
    Zone along;
    along.x = Range{-0.1, 0.1};
    Zone band;
    band.outline = Range{0, 0.02};
    for (const Zone& zone :
         {rectangle({-0.1, 0.1}, {-0.03, 0.03}), along, band, ribbon({-0.3, 0}, {0.3, 0}, 0.04)}) {
        CHECK(mirror_overlap({zone}, plate).whole);
    }
}

TEST_CASE("two ribbons that cross have a rhombus in common") {
    const MirrorOverlap overlap =
        mirror_overlap({ribbon({-0.05, -0.05}, {0.05, 0.05}, 0.03)}, plate);
    CHECK(overlap.crossing);
    CHECK_FALSE(overlap.whole);
    CHECK(overlap.area == Approx(0.03 * 0.03).epsilon(2e-3)); // w^2 / sin 90 deg
    // they end before they meet
    CHECK(mirror_overlap({ribbon({0.02, 0.02}, {0.05, 0.05}, 0.02)}, plate).area == 0);
}
