#include "mesh/lines.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

std::vector<StraightLine> fans(const std::vector<Vector2d>& corners) {
    MeshLines lines;
    lines.parallels = {{0.02, Rank::band, ""}, {0.1, Rank::band, ""}};
    add_corner_fans(polygon_planform(corners, 1), lines);
    return lines.straight;
}

} // namespace

TEST_CASE("where the outline turns inwards lines go to the ends of its parallels' arcs") {
    const auto both = fans({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}});
    REQUIRE(both.size() == 2); // at (1, 1) alone, square to either side, as far as the widest band
    for (const StraightLine& line : both) {
        CHECK((line.a - Vector2d(1, 1)).norm() < 1e-15);
        CHECK(line.rank == Rank::wanted_band);
    }
    CHECK((both[0].b - Vector2d(1, 0.9)).norm() < 1e-12);
    CHECK((both[1].b - Vector2d(0.9, 1)).norm() < 1e-12);
    // a turn of 0.2 rad: one line in its middle, straight into the board
    const double dip = std::tan(0.1);
    const auto one = fans({{-1, 0}, {0, dip}, {1, 0}, {1, 1}, {-1, 1}});
    REQUIRE(one.size() == 1);
    CHECK((one[0].a - Vector2d(0, dip)).norm() < 1e-15);
    CHECK((one[0].b - Vector2d(0, dip + 0.1)).norm() < 1e-12);
    CHECK(fans({{-1, 0}, {0, 0}, {1, 0}, {1, 1}, {-1, 1}}).empty()); // straight on
    MeshLines none;
    add_corner_fans(polygon_planform({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}, 1), none);
    CHECK(none.straight.empty());
}

TEST_CASE("lines and outline are symmetric when each has its mirror image of the same rank") {
    const Planform planform = rectangle_planform(1, 0.4);
    const auto symmetric = [&](const std::vector<StraightLine>& straight) {
        MeshLines lines;
        lines.straight = straight;
        return is_symmetric(planform, lines);
    };
    const StraightLine up{{0, 0.02}, {0.1, 0.05}, Rank::zone, ""};
    const StraightLine down{{0.1, -0.05}, {0, -0.02}, Rank::zone, ""}; // the other way round
    CHECK(symmetric({}));
    CHECK(symmetric({{{0.1, -0.3}, {0.1, 0.3}, Rank::station, ""}}));
    CHECK_FALSE(symmetric({{{0.1, -0.1}, {0.1, 0.3}, Rank::zone, ""}}));
    CHECK(symmetric({{{-0.5, 0}, {0.5, 0}, Rank::axis, ""}}));
    CHECK(symmetric({up, down}));
    CHECK_FALSE(symmetric({up}));
    StraightLine other = down;
    other.rank = Rank::foot;
    CHECK_FALSE(symmetric({up, other}));
    other = down;
    other.b.x() += 1e-8;
    CHECK_FALSE(symmetric({up, other}));
    CHECK_FALSE(
        is_symmetric(polygon_planform({{-1, -0.2}, {1, -0.2}, {1, 0.2}, {-0.9, 0.2}}, 1), {}));
}
