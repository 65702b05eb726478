// The match as a document, against values written by hand.
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/write/match_example.hpp"
#include "tests/io/write/strength_example.hpp"
#include "tests/plain_json.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

PlainJson json_of(const MatchReport& report) {
    return PlainJson::parse(match_json(report));
}

PlainJson quantity(double value, const char* unit, double error) {
    return {{"value", value}, {"unit", unit}, {"error", error}};
}

} // namespace

TEST_CASE("a match's document has targets with windows in bench units, open ends null") {
    MatchExample example;
    MatchedTarget& mass = example.add_target({NumberId::Kind::mass}, {3.2, 0.002, Unit::mass},
                                             {3.12, 0.002, Unit::mass});
    mass.window = {0, -HUGE_VAL, 3.1};
    mass.met = mass.clear = false;
    mass.miss = 0.64516;
    MatchedTarget& place = example.add_target({NumberId::Kind::balance_x}, {0.001, 0, Unit::length},
                                              {0.002, 0, Unit::length});
    place.window = {0, 0.0015, HUGE_VAL};
    place.clear = false;
    example.result.met = false;
    example.result.miss = 0.64516;
    const PlainJson all = json_of(example.report());
    CHECK(all["format"] == 1);
    CHECK(all["board"] == PlainJson{{"name", "plank"}, {"hash", "0123abcd"}});
    CHECK(all["goal"] == "goal.toml");
    CHECK(all["met"] == false);
    CHECK(all["worst_miss"] == 0.645);
    CHECK(all["solves"] == 7);
    CHECK(all["seconds"] == 2.35);
    CHECK(all["written"].is_null());
    REQUIRE(all["targets"].size() == 3);
    CHECK(all["targets"][0]["number"] == "nose-twist");
    CHECK(all["targets"][0]["before"] == quantity(3.141592654, "N m/deg", 0.0314));
    CHECK(all["targets"][0]["after"]["value"] == 3.455751919); // pi times 1.1
    CHECK(all["targets"][0]["min"] == 3.455751919);
    CHECK(all["targets"][0]["with_bar"] == true);
    CHECK(all["targets"][1] == PlainJson{{"number", "mass"},
                                         {"before", quantity(3.2, "kg", 0.002)},
                                         {"after", quantity(3.12, "kg", 0.002)},
                                         {"min", nullptr},
                                         {"max", 3.1},
                                         {"met", false},
                                         {"with_bar", false},
                                         {"missed", 0.645}});
    CHECK(all["targets"][2]["min"] == 1.5);
    CHECK(all["targets"][2]["max"].is_null());
    CHECK(all["targets"][2]["met"] == true);
    CHECK(all["targets"][2]["with_bar"] == false);
}

TEST_CASE("a match's document has all values in file units, also those that did not change") {
    MatchExample example;
    MatchReport report = example.report();
    report.written = "answer.toml";
    const PlainJson all = json_of(report);
    CHECK(all["written"] == "answer.toml");
    CHECK(all["values"] ==
          PlainJson::array({PlainJson{{"value", "core.thickness_mm[3]"},
                                      {"before", 7.1},
                                      {"after", 6.95},
                                      {"unit", "mm"}},
                            PlainJson{{"value", "layer.ribbon.angle_deg"},
                                      {"before", 5},
                                      {"after", -2.5},
                                      {"unit", "deg"}},
                            PlainJson{{"value", "fabric.triax.fibre_volume_fraction"},
                                      {"before", 0.48},
                                      {"after", 0.48},
                                      {"unit", ""}}}));
}

TEST_CASE("a match's document has limits that hold and what is in the way with the miss without") {
    MatchExample example;
    example.result.active = {{ActiveLimit::Kind::min, 1, 0}};
    example.result.obstacles = {{Obstacle::Kind::max, 0, 1.2345}};
    PlainJson all = json_of(example.report());
    CHECK(all["limits"] == PlainJson{"layer.ribbon.angle_deg at its min of -30 deg"});
    CHECK(all["board_limits"] == PlainJson::object());
    MatchReport limited = example.report();
    limited.limits = judge({{"mass", {{}, 3.1}}}, {{"mass", {3.2, 0.002, Unit::mass}}});
    const PlainJson mass = json_of(limited)["board_limits"]["mass"];
    CHECK(mass["exceeded"] == true);
    CHECK(mass["value"] == 3.2);
    CHECK(mass["max"] == 3.1);
    CHECK(all["in_the_way"] ==
          PlainJson::array(
              {PlainJson{{"what", "core.thickness_mm[3] (x = -567.5) at its max of 9.5 mm"},
                         {"worst_miss_without", 1.23}}}));
    example.result.obstacles.clear();
    example.result.slopes_broken = 1;
    all = json_of(example.report());
    CHECK(all["in_the_way"] ==
          PlainJson::array({PlainJson{{"what", "no core within the limits keeps to max_slope"}}}));
}

TEST_CASE("a match's document tells where the answer is weaker, in mm, g/m2 and N, and other "
          "numbers") {
    MatchExample example;
    MatchReport report = example.report();
    report.weaker.stations = {{-0.5675, 7.1e-3, 6e-3}};
    report.weaker.layers = {{"ribbon", 0.3, 0.25}};
    report.weaker.judged = true;
    EarlierFailure failure{"nose-flex", failure_place(), failure_place()};
    failure.after.load.value = 1100;
    failure.after.layer = "core";
    failure.after.place.mode = FailureMode::core_shear;
    report.weaker.failures = {failure};
    report.others = {{"mass", {3.2, 0, Unit::mass}, {3.12, 0, Unit::mass}}};
    const PlainJson all = json_of(report);
    CHECK(all["thinner"] ==
          PlainJson::array({PlainJson{{"x_mm", -567.5}, {"before_mm", 7.1}, {"after_mm", 6}}}));
    CHECK(all["lighter"] == PlainJson::array({PlainJson{
                                {"layer", "ribbon"}, {"before_gsm", 300}, {"after_gsm", 250}}}));
    CHECK(all["strength_judged"] == true);
    CHECK(all["earlier_failures"] ==
          PlainJson::array({PlainJson{{"case", "nose-flex"},
                                      {"before", quantity(1250, "N", 30)},
                                      {"after", quantity(1100, "N", 30)},
                                      {"resolved", true},
                                      {"layer", "core"},
                                      {"mode", "core shear"}}}));
    CHECK(all["others"] ==
          PlainJson{
              {"mass", {{"before", quantity(3.2, "kg", 0)}, {"after", quantity(3.12, "kg", 0)}}}});
}
