#include <algorithm>
#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "mesh/board/zones.hpp"

using namespace vrid;
using Polygon = std::vector<Eigen::Vector2d>;

namespace {

// A star with five arms, counter-clockwise: sound, but far from convex.
Polygon star() {
    Polygon corners;
    for (int i = 0; i < 10; ++i) {
        const double angle = M_PI * (i + 0.3) / 5;
        corners.push_back((i % 2 == 0 ? 0.1 : 0.04) *
                          Eigen::Vector2d(std::cos(angle), std::sin(angle)));
    }
    return corners;
}

// How often the polygon turns around a point: the sum of the angles that its sides are seen under.
double turns(const Polygon& polygon, const Eigen::Vector2d& point) {
    double sum = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Eigen::Vector2d a = polygon[i] - point;
        const Eigen::Vector2d b = polygon[(i + 1) % polygon.size()] - point;
        sum += std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
    }
    return sum / (2 * M_PI);
}

} // namespace

TEST_CASE("a point is in a polygon exactly where the polygon turns around it") {
    std::mt19937 random(3); // NOLINT(cert-msc51-cpp): seeded, so that a failure can be repeated
    std::uniform_real_distribution<double> place(-0.11, 0.11);
    int within = 0;
    for (int i = 0; i < 2000; ++i) {
        const Eigen::Vector2d point(place(random), place(random));
        const bool in = in_polygon(star(), point);
        within += in ? 1 : 0;
        CHECK(in == (turns(star(), point) > 0.5));
        const std::vector<double> y = polygon_crossings(star(), point.x());
        REQUIRE(y.size() % 2 == 0);
        bool between = false; // two by two inside
        for (std::size_t k = 0; k + 1 < y.size(); k += 2) {
            CHECK(y[k] <= y[k + 1]);
            between = between || (point.y() > y[k] && point.y() < y[k + 1]);
        }
        CHECK(in == between);
    }
    CHECK(within > 200);
}

TEST_CASE("a polygon is sound either way round, and not when sides meet, go back or vanish") {
    Polygon sound = star();
    CHECK_FALSE(crossing_corner(sound));
    std::reverse(sound.begin(), sound.end());
    CHECK_FALSE(crossing_corner(sound));
    Polygon crossed = star();
    std::swap(crossed[2], crossed[6]);
    CHECK(crossing_corner(crossed));
    CHECK(crossing_corner(Polygon{{0, 0}, {0.04, 0}, {0.04, 0}, {0, 0.04}}) == 1u);
    CHECK(crossing_corner(Polygon{{0, 0}, {0.04, 0}, {0.02, 0}, {0.02, 0.04}})); // back on itself
    CHECK(
        crossing_corner(Polygon{{0, 0}, {0.04, 0}, {0.04, 0.04}, {0.02, 0}, {0, 0.04}})); // touches
}
