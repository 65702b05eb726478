#include "mesh/mesh_motion.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

constexpr double change = 1e-4; // of a line, to either side [m]

// Speeds of one line that is somewhere else below and above.
struct OneLine {
    Board board; // the outline stays
    MeshLines lines, below, above;
    OneLine(const StraightLine& line, const StraightLine& low, const StraightLine& high) {
        lines.straight = {line};
        below.straight = {low};
        above.straight = {high};
    }
    [[nodiscard]] double speed(const Vector2d& at, const Vector2d& normal) const {
        const LineChange by{board, board, below, above, 2 * change};
        return LineSpeeds(by, lines).straight(0, at, normal);
    }
};

StraightLine shifted(StraightLine line, const Vector2d& by) {
    line.a += by;
    line.b += by;
    return line;
}

const StraightLine slanted{{0, 0}, {0.3, 0.4}, Rank::zone, ""};
const Vector2d slanted_left(-0.8, 0.6);

} // namespace

TEST_CASE("the way ahead to a line is measured along the normal, whichever way the line runs") {
    const StraightLine back{slanted.b, slanted.a, Rank::zone, ""};
    const Vector2d beside = Vector2d(0.15, 0.2) + 0.01 * slanted_left;
    CHECK(ahead(slanted, beside, slanted_left) == Approx(-0.01));
    CHECK(ahead(back, beside, slanted_left) == Approx(-0.01));
    CHECK(ahead(slanted, beside, -slanted_left) == Approx(0.01));
}

TEST_CASE("a line's speed is what it moves by along its normal, turned with it") {
    const OneLine moved(slanted, shifted(slanted, {-change, 0}), shifted(slanted, {change, 0}));
    CHECK(moved.speed({0.15, 0.2}, slanted_left) == Approx(-0.8));
    CHECK(moved.speed({0.15, 0.2}, -slanted_left) == Approx(0.8));
    // turned about its start: its end moves by one unit, its middle by half of it
    StraightLine low = slanted, high = slanted;
    low.b -= change * slanted_left;
    high.b += change * slanted_left;
    const OneLine turned(slanted, low, high);
    CHECK(turned.speed({0, 0}, slanted_left) == Approx(0).margin(1e-9));
    CHECK(turned.speed({0.15, 0.2}, slanted_left) == Approx(0.5).epsilon(1e-6));
    CHECK(turned.speed({0.3, 0.4}, slanted_left) == Approx(1).epsilon(1e-6));
}

TEST_CASE("a line is found again by rank, direction and place; one that is not stays") {
    const auto high = shifted(slanted, {change, 0});
    StraightLine other = high;
    other.rank = Rank::station;
    CHECK(OneLine(slanted, slanted, other).speed({0, 0}, slanted_left) == 0);
    CHECK(OneLine(slanted, other, slanted).speed({0, 0}, slanted_left) == 0);
    CHECK(OneLine(slanted, slanted, shifted(slanted, {0, 0.01})).speed({0, 0}, slanted_left) == 0);
    StraightLine steeper = high;
    steeper.b += 2e-3 * slanted_left; // 4e-3 rad
    CHECK(OneLine(slanted, slanted, steeper).speed({0, 0}, slanted_left) == 0);
    // two in one row: the one of the same ends, wherever it is listed
    for (const bool first : {true, false}) {
        OneLine row(slanted, slanted, high);
        const StraightLine far = shifted(slanted, {0.3, 0.4});
        row.above.straight.insert(first ? row.above.straight.begin() : row.above.straight.end(),
                                  far);
        CHECK(row.speed({0.15, 0.2}, slanted_left) == Approx(-0.4)); // from 0 to change
    }
}

TEST_CASE("parallels change their distance, the outline moves at a fixed place of its pieces") {
    Board below, above;
    below.planform = rectangle_planform(1 - change, 0.4 - 2 * change);
    above.planform = rectangle_planform(1 + change, 0.4 + 2 * change);
    MeshLines lines, low, high;
    lines.parallels = {
        {0.002, Rank::band, ""}, {0.009, Rank::band, ""}, {0.02, Rank::wanted_band, ""}};
    low.parallels = {{0.002, Rank::band, ""}, {0.009 - change, Rank::band, ""}};
    high.parallels = {{0.009, Rank::wanted_band, ""},
                      {0.0023, Rank::wanted_band, ""},
                      {0.002, Rank::band, ""},
                      {0.009 + change, Rank::band, ""}};
    const LineChange by{below, above, low, high, 2 * change};
    const LineSpeeds speeds(by, lines);
    CHECK(speeds.parallel(0) == Approx(0).margin(1e-9));
    CHECK(speeds.parallel(1) == Approx(1));
    CHECK(speeds.parallel(2) == Approx(0).margin(1e-9)); // not found: it stays
    // from (-0.5, -0.2) to (0.5, -0.2): length at rate 1, width at rate 2
    CHECK((speeds.outline({0, 0.25}) - Vector2d(-0.25, -1)).norm() < 1e-9);
    CHECK((speeds.outline({1, 0.75}) - Vector2d(0.5, 0.5)).norm() < 1e-9);
}
