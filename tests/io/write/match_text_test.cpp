// The printed match, against rows written by hand; its words: match_words_test.
#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/io/write/match_example.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string first_row(const MatchExample& example) {
    return text_rows(match_text(example.report())).front();
}

} // namespace

TEST_CASE("the first line says whether targets are met, clearly or not, or by how much one is "
          "missed") {
    MatchExample example;
    CHECK(first_row(example) == "plank: all targets met");
    example.result.targets[0].clear = false;
    CHECK(first_row(example) == "plank: all targets met, some by less than the error bar");
    example.result.met = example.result.targets[0].met = false;
    example.result.targets[0].miss = 1.234;
    example.add_target({NumberId::Kind::balance_x}, {0, 0, Unit::length}, {0, 0, Unit::length})
        .miss = 1.1;
    CHECK(first_row(example) == "plank: no answer; the nearest board misses a target by 1.23 %");
    example.result.targets[1].miss = 4.5;
    CHECK(first_row(example) == "plank: no answer; the nearest board misses a target by 4.50 mm");
    example.result.slopes_broken = 0.1;
    CHECK(first_row(example) == "plank: no answer");
}

TEST_CASE("a target's row has its window, what was found with its bar, and the verdict") {
    MatchExample example;
    // 180 N m/rad are pi N m/deg.
    CHECK(text_row(match_text(example.report()), "nose-twist") ==
          "nose-twist 3.4558 to 3.4558 3.46 +- 0.04 N m/deg met");
    MatchedTarget& twist = example.result.targets[0];
    twist.window = {0, 360, HUGE_VAL};
    twist.clear = false;
    CHECK(text_row(match_text(example.report()), "nose-twist") ==
          "nose-twist at least 6.2832 3.46 +- 0.04 N m/deg met, margin within the error bar");
    twist.window = {0, -HUGE_VAL, 90};
    twist.met = false;
    twist.miss = 120.4;
    CHECK(text_row(match_text(example.report()), "nose-twist") ==
          "nose-twist at most 1.5708 3.46 +- 0.04 N m/deg missed by 120 %");
    MatchedTarget& lost =
        example.add_target({.kind = NumberId::Kind::edge, .edge_number = "loss_nose"},
                           {0.02, 0, Unit::angle}, {2.5 * degree, 0, Unit::angle});
    const Window window{0, degree, 2 * degree};
    lost.window = window;
    lost.met = false;
    lost.miss = 25;
    CHECK(text_row(match_text(example.report()), "edge.loss_nose") ==
          "edge.loss_nose 1.0000 to 2.0000 2.500 deg missed by 25.0 %");
    MatchedTarget& twisted = example.add_target(
        {.kind = NumberId::Kind::shape, .bench_case = "release", .shape_number = "twist"},
        {0.02, 0, Unit::angle}, {2.5 * degree, 0, Unit::angle});
    twisted.window = window;
    twisted.met = false;
    twisted.miss = 500 * degree; // thousandths of a radian
    CHECK_THAT(text_row(match_text(example.report()), "release"),
               Contains("1.0000 to 2.0000 2.500 deg missed by 0.500 deg"));
}

TEST_CASE("a bound missed by less than is usually shown is told apart, a kept one is not") {
    MatchExample example;
    MatchedTarget& edge =
        example.add_target({NumberId::Kind::mass}, {1.3, 0, Unit::mass}, {1.19999, 0, Unit::mass});
    edge.window = {0, 1.2, HUGE_VAL};
    edge.met = false;
    edge.miss = 8.33e-4;
    CHECK(text_row(match_text(example.report()), "mass") ==
          "mass at least 1.20000 1.19999 kg missed by 0.000833 %");
    edge.after.value = 1.20001;
    edge.met = true;
    CHECK(text_row(match_text(example.report()), "mass") == "mass at least 1.2000 1.200 kg met");
}

TEST_CASE("a length that is no position is missed by percent, a position by mm, also without what "
          "stands in the way") {
    MatchExample example;
    MatchedTarget& length = example.add_target({NumberId::Kind::length}, {0.6, 0, Unit::length},
                                               {0.6, 0, Unit::length});
    length.window = {0, 0.7, 0.8};
    length.met = example.result.met = false;
    length.miss = 14.2857;
    CHECK_THAT(text_row(match_text(example.report()), "length"), Contains("missed by 14.3 %"));
    example.add_target({NumberId::Kind::balance_x}, {0, 0, Unit::length}, {0, 0, Unit::length});
    example.result.obstacles = {{Obstacle::Kind::target, 0, 2.5, 2}};
    CHECK_THAT(match_text(example.report()), Contains("(goal.toml:3:1): 2.50 mm\n"));
}

TEST_CASE("values that changed are told before and after, those that did not are left out") {
    MatchExample example;
    CHECK(text_rows_between(match_text(example.report()), "changed value", "number") ==
          std::vector<std::string>{"core.thickness_mm[3] (x = -567.5) 7.1 6.95 mm",
                                   "layer.ribbon.angle_deg 5 -2.5 deg"});
    for (Eigen::Index i = 0; i < 3; ++i) { // closer than a file shows
        example.result.values(i) =
            example.problem.values[static_cast<std::size_t>(i)].start + 1e-12;
    }
    CHECK_THAT(match_text(example.report()), Contains("\n  no value changed\n"));
}

TEST_CASE("numbers stand before and after with the change in percent, each once, none at zero") {
    MatchExample example;
    const NumberId twist = example.goal.targets[0].number;
    example.add_target(twist, {180, 1.8, Unit::twist_stiffness}, {198, 1.8, Unit::twist_stiffness});
    MatchReport report = example.report();
    report.others = {{"mass", {3.2, 0.002, Unit::mass}, {3.12, 0.002, Unit::mass}},
                     {"balance_point.x", {1e-3, 0, Unit::length}, {2e-3, 0, Unit::length}},
                     {"balance_point.y", {9e-8, 0, Unit::length}, {-9e-8, 0, Unit::length}},
                     {"moved", {0, 0, Unit::length}, {3e-3, 0, Unit::length}},
                     {"loss", {-2, 0, Unit::none}, {-3, 0, Unit::none}},
                     {"grown", {0, 0, Unit::none}, {1, 0, Unit::none}}};
    CHECK(text_rows_between(match_text(report), "number before", "7 solves") ==
          std::vector<std::string>{"nose-twist 3.14 +- 0.04 3.46 +- 0.04 N m/deg +10.00 %",
                                   "mass 3.200 +- 0.002 3.120 +- 0.002 kg -2.50 %",
                                   "balance_point.x 1.000 2.000 mm", "moved 0.000 3.000 mm",
                                   "loss -2.000 -3.000 -50.00 %", "grown 0.000 1.000"});
}

TEST_CASE("limits reached, and without an answer what is in the way, with the miss without it") {
    MatchExample example;
    example.result.active = {{ActiveLimit::Kind::max, 0, 9.5e-3}};
    using Kind = Obstacle::Kind;
    example.result.obstacles = {{Kind::min, 0, 0.0499},
                                {Kind::max, 1, 0.05},
                                {Kind::slope, 0, 1.234},
                                {Kind::target, 0, 0.5},
                                {Kind::rounding, 0, 3}};
    std::string text = match_text(example.report());
    CHECK_THAT(text,
               Contains("\n  limits reached\n    core.thickness_mm[3] (x = -567.5) at its max "
                        "of 9.5 mm\n"));
    CHECK_THAT(text, !Contains("limiting"));
    example.result.met = false;
    CHECK(text_rows_between(match_text(example.report()), "limiting;", "number") ==
          std::vector<std::string>{
              "core.thickness_mm[3] (x = -567.5) at its min of 5 mm, one step further: none would "
              "be missed",
              "layer.ribbon.angle_deg at its max of 30 deg, one step further: 0.0500 %",
              "max_slope of the core between x = -567.5 and -292.5 mm, a tenth steeper: 1.23 %",
              "the target nose-twist (goal.toml:3:1): 0.500 %",
              "round_to: without it the targets can be met"});
    example.result.obstacles.clear();
    CHECK_THAT(match_text(example.report()),
               Contains("\n  limiting: the free values move these numbers too little\n"));
    example.result.slopes_broken = 0.1;
    CHECK_THAT(match_text(example.report()),
               Contains("\n  limiting: no core within the limits keeps to max_slope\n"));
}

TEST_CASE("[limits] of the board that the answer breaks are told with what was found, others not") {
    MatchExample example;
    MatchReport report = example.report();
    CHECK_THAT(match_text(report), !Contains("[limits]"));
    report.limits = judge(
        {{"mass", {{}, 3.1}}, {"nose-twist", {3.0, 4.0}}, {"EI@0", {1.0, {}}}},
        {{"mass", {3.2, 0.002, Unit::mass}}, {"nose-twist", {198, 1.8, Unit::twist_stiffness}}});
    const std::string text = match_text(report);
    CHECK_THAT(text, Contains("\n  [limits] of the board file that this board breaks\n"));
    CHECK(text_rows_between(text, "limit min", "number before") ==
          std::vector<std::string>{"mass 3.200 +- 0.002 3.1 kg EXCEEDED"});
    report.limits = judge({{"mass", {{}, 3.3}}}, {{"mass", {3.2, 0.002, Unit::mass}}});
    CHECK_THAT(match_text(report), !Contains("[limits]"));
}

TEST_CASE("the last lines tell solves, time and where the board is") {
    const MatchExample example;
    MatchReport report = example.report();
    CHECK_THAT(match_text(report),
               Catch::EndsWith("\n  7 solves, 2.3 s\n  no board file was written\n"));
    report.written = "out/answer.toml";
    CHECK_THAT(match_text(report), Catch::EndsWith("\n  the board is in out/answer.toml\n"));
}
