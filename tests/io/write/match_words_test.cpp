// Values, limits and obstacles of a match in words, against sentences written by hand.
#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/io/write/match_example.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("a value is named by its path, a core station by its place too, and shown in file units "
          "without noise") {
    const MatchExample example;
    const auto& values = example.problem.values;
    CHECK(value_name(values[0]) == "core.thickness_mm[3] (x = -567.5)");
    CHECK(value_name(values[1]) == "layer.ribbon.angle_deg");
    CHECK(value_name(values[2]) == "fabric.triax.fibre_volume_fraction");
    CHECK(file_value(values[0], 6.95e-3) == "6.95");
    CHECK(file_value(values[0], 10e-3) == "10");
    CHECK(file_value(values[0], 0.1) == "100");
    CHECK(file_value(values[0], 6.9500004e-3) == "6.95");
    CHECK(file_value(values[1], -22.5 * degree) == "-22.5");
    CHECK(file_value(values[2], 0.485) == "0.485");
}

TEST_CASE("a limit that holds is told with its end and unit; a slope with what it may be") {
    const MatchExample example;
    const MatchReport report = example.report();
    using Kind = ActiveLimit::Kind;
    CHECK(limit_words(report, {Kind::max, 0, 9.5e-3}) ==
          "core.thickness_mm[3] (x = -567.5) at its max of 9.5 mm");
    CHECK(limit_words(report, {Kind::min, 1, 0}) == "layer.ribbon.angle_deg at its min of -30 deg");
    CHECK(limit_words(report, {Kind::max, 2, 0}) ==
          "fabric.triax.fibre_volume_fraction at its max of 0.55");
    CHECK(limit_words(report, {Kind::slope, 0, -0.01996}) ==
          "slope of the core between x = -567.5 and -292.5 mm: 0.0200 of 0.02");
}

TEST_CASE("an obstacle is a target with its place in the goal, a limit or the rounding") {
    MatchExample example;
    example.add_target({NumberId::Kind::mass}, {3, 0, Unit::mass}, {3, 0, Unit::mass});
    const MatchReport report = example.report();
    using Kind = Obstacle::Kind;
    CHECK(obstacle_words(report, {Kind::target, 0}) == "the target nose-twist (goal.toml:3:1)");
    CHECK(obstacle_words(report, {Kind::target, 1}) == "the target mass (goal.toml:4:1)");
    CHECK(obstacle_words(report, {Kind::min, 0}) ==
          "core.thickness_mm[3] (x = -567.5) at its min of 5 mm");
    CHECK(obstacle_words(report, {Kind::max, 1}) == "layer.ribbon.angle_deg at its max of 30 deg");
    CHECK(obstacle_words(report, {Kind::slope, 0}) ==
          "max_slope of the core between x = -567.5 and -292.5 mm");
    CHECK(obstacle_words(report, {Kind::rounding, 0}) ==
          "round_to: without it the targets can be met");
}
