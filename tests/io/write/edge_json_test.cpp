// edge.json against values written by hand.
#include <catch2/catch.hpp>

#include "io/write/edge_report.hpp"
#include "tests/degree.hpp"
#include "tests/plain_json.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

EdgeHold held(const std::string& name, double peak, double error) {
    EdgeHold hold;
    hold.board.name = name;
    hold.board.hash = "hash of " + name;
    EdgeConditionResult one;
    one.condition = {Side::right, 60 * degree, 800, 5e9, 0.4};
    one.numbers = {{"peak", {peak, error, Unit::line_force}},
                   {"peak_x", {-0.3, 0.002, Unit::length}},
                   {"loss_nose", {2.5 * degree, 0.1 * degree, Unit::angle}},
                   {"balance", {1.26e-14, 0, Unit::none}}};
    EdgeConditionResult lost;
    lost.condition = {Side::left, 30 * degree, 650, 3e6, 0.5, SnowLaw::linear};
    lost.no_equilibrium = "it tips over";
    hold.result.conditions = {one, lost};
    hold.result.numbering.degree = 3;
    hold.result.unknowns = 4321;
    hold.result.warnings = {"warning of " + name};
    return hold;
}

} // namespace

TEST_CASE("edge.json has every condition as it was asked for, its numbers in bench units") {
    EdgeHold hold = held("plank", 4200, 130);
    const PlainJson all = PlainJson::parse(edge_json(hold, nullptr));
    CHECK(all["format"] == 1);
    CHECK(all["board"]["name"] == "plank");
    CHECK(all["board"]["hash"] == "hash of plank");
    CHECK(all["shape"] == "flat");
    CHECK(all["motion"] == "small");
    CHECK(all["mesh"]["unknowns"] == 4321);
    CHECK(all["warnings"] == PlainJson{"warning of plank"});
    CHECK_FALSE(all.contains("compared"));
    REQUIRE(all["conditions"].size() == 2);
    CHECK(all["conditions"][0] ==
          PlainJson{{"name", "edge 60 deg 800 N 5 N/mm3 right share 0.4"},
                    {"angle_deg", 60},
                    {"force_N", 800},
                    {"hardness", 5},
                    {"share", 0.4},
                    {"side", "right"},
                    {"law", "volume"},
                    {"peak", {{"value", 4.2}, {"unit", "N/mm"}, {"error", 0.13}}},
                    {"peak_x", {{"value", -300}, {"unit", "mm"}, {"error", 2}}},
                    {"loss_nose", {{"value", 2.5}, {"unit", "deg"}, {"error", 0.1}}},
                    {"balance", 1.3e-14}});
    CHECK(all["conditions"][1] == PlainJson{{"name", "edge 30 deg 650 N 3 N/mm2"},
                                            {"angle_deg", 30},
                                            {"force_N", 650},
                                            {"hardness", 3},
                                            {"share", 0.5},
                                            {"side", "left"},
                                            {"law", "linear"},
                                            {"no_equilibrium", "it tips over"}});
    hold.result.bent = true;
    CHECK(PlainJson::parse(edge_json(hold, nullptr))["motion"] == "large");
}

TEST_CASE("a second board's numbers stand with their difference to the first, and whether it is "
          "larger than both bars") {
    const EdgeHold first = held("plank", 4200, 130);
    const auto difference = [&](double peak, double error) {
        const EdgeHold second = held("other", peak, error);
        const PlainJson compared = PlainJson::parse(edge_json(first, &second))["compared"];
        CHECK(compared["board"]["name"] == "other");
        CHECK(compared["warnings"] == PlainJson{"warning of other"});
        CHECK(compared["conditions"][0]["peak"]["value"] == peak / 1000);
        CHECK_FALSE(compared["conditions"][0]["difference"].contains("balance"));
        CHECK(compared["conditions"][0]["difference"]["peak_x"]["value"] == 0);
        CHECK(compared["conditions"][1]["no_equilibrium"] == "it tips over");
        return compared["conditions"][0]["difference"]["peak"];
    };
    CHECK(difference(4000, 60) ==
          PlainJson{{"value", -0.2}, {"unit", "N/mm"}, {"error", 0.19}, {"resolved", true}});
    CHECK(difference(4000, 80) ==
          PlainJson{{"value", -0.2}, {"unit", "N/mm"}, {"error", 0.21}, {"resolved", false}});
    CHECK(difference(4400, 60)["value"] == 0.2);
}
