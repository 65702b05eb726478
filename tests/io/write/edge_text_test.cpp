// The printed edge hold, against rows written by hand from values written by hand.
#include <catch2/catch.hpp>

#include "io/write/edge_report.hpp"
#include "tests/degree.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

EdgeConditionResult at_rest() {
    EdgeConditionResult one;
    one.condition = {Side::left, 45 * degree, 800, 5e9};
    one.numbers = {{"peak", {4200, 130, Unit::line_force}},
                   {"peak_x", {0.3, 0.002, Unit::length}},
                   {"loss_nose", {2.5 * degree, 0.04 * degree, Unit::angle}},
                   {"loss_nose_twist", {-0.5 * degree, 0.04 * degree, Unit::angle}},
                   {"share_nose", {0.42, 0.003, Unit::none}},
                   {"balance", {1e-14, 0, Unit::none}}};
    return one;
}

EdgeHold hold_of(const std::vector<EdgeConditionResult>& conditions) {
    EdgeHold hold;
    hold.board.name = "plank";
    hold.result.conditions = conditions;
    return hold;
}

} // namespace

TEST_CASE("one condition's table has every number with its bar and unit, the balance left out") {
    CHECK(text_rows(edge_text(hold_of({at_rest()}), false)) ==
          std::vector<std::string>{"plank",
                                   "left edge, 45 deg, 800 N, 5 N/mm3, 50 % on the front foot",
                                   "peak force 4.20 +- 0.13 N/mm", "peak force at x 300 +- 2 mm",
                                   "edge angle lost, nose 2.50 +- 0.04 deg",
                                   "by twist -0.50 +- 0.04 deg", "share nose 0.420 +- 0.003"});
}

TEST_CASE("the heading tells side, share and law; the board's line a large motion") {
    EdgeHold hold = hold_of({at_rest()});
    hold.result.bent = true;
    EdgeCondition& condition = hold.result.conditions[0].condition;
    condition = {Side::right, 22.5 * degree, 650.5, 3e6, 0.4, SnowLaw::linear};
    const auto rows = text_rows(edge_text(hold, false));
    CHECK(rows.at(0) == "plank, in large motion");
    CHECK(rows.at(1) == "right edge, 22.5 deg, 650.5 N, 3 N/mm2, 40 % on the front foot");
}

TEST_CASE("several conditions have a row each in one table; a number that one lacks is a dash") {
    EdgeConditionResult other = at_rest();
    other.condition.side = Side::right;
    other.condition.tilt = 60 * degree;
    other.condition.force = 1600;
    other.numbers = {{"loss_tail", {1.25 * degree, 0, Unit::angle}}};
    const std::string text = edge_text(hold_of({at_rest(), other}), false);
    CHECK(text_row(text, "side") ==
          "side angle force snow share nose share tail lost nose by twist lost tail by twist eff. "
          "length peak");
    CHECK(text_row(text, "[deg]") == "[deg] [N] [deg] [deg] [deg] [N/mm]");
    CHECK(text_row(text, "left 45") == "left 45 800 5 N/mm3 0.420 - 2.50 -0.50 - - - 4.20");
    CHECK(text_row(text, "right 60") == "right 60 1600 5 N/mm3 - - - - 1.250 - - -");
    CHECK_THAT(text, !Contains("left edge,"));
    const std::string detailed = edge_text(hold_of({at_rest(), other}), true);
    CHECK(text_row(detailed, "left edge") ==
          "left edge, 45 deg, 800 N, 5 N/mm3, 50 % on the front foot");
    CHECK(text_row(detailed, "edge angle lost, tail") == "edge angle lost, tail 1.250 deg");
}

TEST_CASE("a condition without equilibrium says why, alone and among others") {
    EdgeConditionResult lost = at_rest();
    lost.numbers.clear();
    lost.no_equilibrium = "it tips over";
    CHECK(text_rows(edge_text(hold_of({lost}), false)).back() == "no equilibrium: it tips over");
    const std::string text = edge_text(hold_of({at_rest(), lost}), false);
    CHECK(text_rows(text).back() ==
          "no equilibrium: left edge, 45 deg, 800 N, 5 N/mm3, 50 % on the "
          "front foot: it tips over");
}

TEST_CASE("two boards stand side by side with B - A, not resolved inside both bars together") {
    EdgeConditionResult b = at_rest();
    b.numbers[0].quantity = {4000, 60, Unit::line_force}; // 200 less, bars 130 + 60
    b.numbers[1].quantity = {0.304, 0.003, Unit::length}; // 4 mm more, bars 2 + 3
    b.numbers[2].quantity = {3 * degree, 0.05 * degree, Unit::angle};
    EdgeHold second = hold_of({b});
    second.board.name = "other";
    second.result.bent = true;
    const std::string text = edge_text(hold_of({at_rest()}), second);
    CHECK(text_row(text, "A ") == "A plank");
    CHECK(text_row(text, "B ") == "B other, in large motion");
    CHECK(text_row(text, "peak force ") == "peak force 4.20 +- 0.13 4.00 +- 0.06 -0.20 N/mm");
    CHECK(text_row(text, "peak force at x") == "peak force at x 300 +- 2 304 +- 3 not resolved mm");
    CHECK(text_row(text, "edge angle lost, nose") ==
          "edge angle lost, nose 2.50 +- 0.04 3.00 +- 0.05 +0.50 deg");
    CHECK(text_row(text, "share nose") == "share nose 0.420 +- 0.003 0.420 +- 0.003 not resolved");
    CHECK_THAT(text, !Contains("balance"));
    second.result.conditions[0].no_equilibrium = "it tips over";
    const std::string without = edge_text(hold_of({at_rest()}), second);
    CHECK(text_row(without, "B: no") == "B: no equilibrium: it tips over");
    CHECK_THAT(without, !Contains("A: no equilibrium") && !Contains("peak force"));
}
