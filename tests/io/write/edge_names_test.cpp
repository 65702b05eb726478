// Names of edge conditions and their numbers: scripts, limits and folders are keyed by them.
#include <catch2/catch.hpp>

#include "io/write/edge_report.hpp"
#include "tests/degree.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("a condition's name has angle, load and hardness as a person writes them, and only what "
          "is unusual besides") {
    EdgeCondition one{Side::left, 45 * degree, 800, 5e9};
    CHECK(edge_condition_name(one) == "edge 45 deg 800 N 5 N/mm3");
    one.tilt = 22.5 * degree;
    one.force = 800.5;
    one.hardness = 0.25e9;
    CHECK(edge_condition_name(one) == "edge 22.5 deg 800.5 N 0.25 N/mm3");
    one.law = SnowLaw::linear;
    one.hardness = 3e6;
    CHECK(edge_condition_name(one) == "edge 22.5 deg 800.5 N 3 N/mm2");
    one.side = Side::right;
    one.share = 0.4;
    CHECK(edge_condition_name(one) == "edge 22.5 deg 800.5 N 3 N/mm2 right share 0.4");
    one.side = Side::left;
    one.share = 0.5;
    one.bent = true;
    CHECK(edge_condition_name(one) == "edge 22.5 deg 800.5 N 3 N/mm2 bent");
    one.side = Side::right;
    one.share = 1;
    CHECK(edge_condition_name(one) == "edge 22.5 deg 800.5 N 3 N/mm2 right share 1 bent");
}

TEST_CASE("a limit on edge.NAME holds in every condition that has no limit of its own") {
    EdgeHold hold;
    EdgeConditionResult soft;
    soft.condition = {Side::left, 45 * degree, 800, 5e8};
    soft.numbers = {{"peak_x", {0.3, 0, Unit::length}},
                    {"loss_nose", {2 * degree, 0.5 * degree, Unit::angle}}};
    EdgeConditionResult hard = soft;
    hard.condition.hardness = 5e9;
    hard.numbers[1].quantity.value = 7 * degree;
    EdgeConditionResult lost;
    lost.condition = {Side::left, 45 * degree, 800, 5e7};
    hold.result.conditions = {soft, hard, lost};
    const std::string at_hard = "edge 45 deg 800 N 5 N/mm3 loss nose";
    hold.board.limits = {{"edge.loss_nose", {{}, 6}},
                         {"edge.peak_x", {{}, 400}},
                         {"edge.loss_tail", {{}, 6}},
                         {"mass", {{}, 4}}};
    const auto told = [&hold] {
        std::vector<std::string> all;
        for (const LimitVerdict& verdict : edge_verdicts(hold)) {
            all.push_back(verdict.name + (!verdict.found     ? " not found"
                                          : verdict.exceeded ? " exceeded"
                                                             : " within"));
        }
        return all;
    };
    CHECK(told() == std::vector<std::string>{
                        "edge 45 deg 800 N 0.5 N/mm3 loss nose within",
                        "edge 45 deg 800 N 0.5 N/mm3 peak x within", at_hard + " exceeded",
                        "edge 45 deg 800 N 5 N/mm3 peak x within", "edge.loss_tail not found"});
    hold.board.limits = {{"edge.loss_nose", {{}, 1}}, {at_hard, {{}, 8}}};
    CHECK(told() == std::vector<std::string>{"edge 45 deg 800 N 0.5 N/mm3 loss nose exceeded",
                                             at_hard + " within"});
}

TEST_CASE("what is watched are a condition's numbers, not places along the board nor the balance") {
    for (const char* name : {"peak", "loss_nose", "share_tail", "effective_length"}) {
        CHECK(is_watched_edge_number(name));
    }
    for (const char* name : {"peak_x", "contact_tail", "contact_nose", "balance"}) {
        CHECK_FALSE(is_watched_edge_number(name));
    }
    CHECK(in_words("loss_nose_twist") == "loss nose twist");
    EdgeResult result;
    EdgeConditionResult one;
    one.condition = {Side::left, 45 * degree, 800, 5e9};
    one.numbers = {{"peak_x", {1, 0, Unit::length}}, {"loss_nose", {2, 0.5, Unit::angle}}};
    result.conditions = {one, one};
    result.conditions[1].condition.share = 0.25;
    const auto watched = watched_edge_numbers(result);
    REQUIRE(watched.size() == 2);
    CHECK(watched[0].name == "edge 45 deg 800 N 5 N/mm3 loss nose");
    CHECK(watched[0].quantity.error == 0.5);
    CHECK(watched[1].name == "edge 45 deg 800 N 5 N/mm3 share 0.25 loss nose");
}
