// strength.json against values written by hand; there and back again: strength_document_test.
#include <catch2/catch.hpp>

#include "solver/strength_view.hpp"
#include "tests/degree.hpp"
#include "tests/io/write/strength_example.hpp"
#include "tests/plain_json.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

PlainJson json_of(const BoardStrength& strength, const StrengthView& view = {}) {
    return PlainJson::parse(strength_json(strength, view));
}

PlyProfile one_ply() {
    PlyProfile ply;
    ply.layer = "core";
    ply.number = 3;
    ply.angle = -30 * degree;
    ply.bottom = 1.5e-3;
    ply.top = 4e-3;
    ply.stress.in_plane << 1e6, 2e6, 3e6, 4e6, 5e6, 6e6;
    ply.stress.shear << 0.1e6, 0.2e6, 0.3e6, 0.4e6, 0.5e6, 0.6e6;
    PlyStrength wood{90e6, 40e6, 3e6, 5e6, 9e6, 8e6, {}, false};
    PlyStrength metal{500e6, 510e6, 1e6, 2e6, 3e6, {}, {}, true};
    ply.parts = {{"ash", wood, ply.stress}, {"steel", metal, ply.stress}, {"foam", {}, ply.stress}};
    return ply;
}

} // namespace

TEST_CASE("a place in strength.json is in mm and degrees, its load and travel with their bars") {
    BoardStrength strength = strength_example();
    const PlainJson all = json_of(strength);
    CHECK(all["board"] == PlainJson{{"name", "plank"}, {"hash", "0123abcd"}});
    CHECK(all["criterion"] == "tsai-hill");
    CHECK(all["residual"].is_null());
    CHECK(all["caution"] == all["caution_again"]);
    const PlainJson& one = all["strength"]["nose-flex"];
    CHECK(one["slope"] == 0.1234);
    CHECK(one["kink"] == false);
    CHECK_FALSE(one.contains("at"));
    CHECK_FALSE(one.contains("away"));
    PlainJson place{{"value", 1250},
                    {"unit", "N"},
                    {"error", 30},
                    {"travel", 45.7},
                    {"travel_error", 1.1},
                    {"travel_unit", "mm"},
                    {"x_mm", 318},
                    {"y_mm", -40},
                    {"both_sides", false},
                    {"layer", "lower glass"},
                    {"ply", 2},
                    {"ply_deg", 45},
                    {"z_mm", 2.5},
                    {"mode", "crack across"},
                    {"at_clamp", false},
                    {"at_outline", false},
                    {"resolved", true},
                    {"sign", 1}};
    CHECK(one["first"] == place);
    FailurePlace turned = failure_place();
    turned.load = {12.5, 0.25, Unit::moment};
    turned.travel = {6 * degree, 0.5 * degree, Unit::angle};
    turned.both_sides = turned.at_clamp = true;
    turned.place.sign = -1;
    strength.result.cases[0].breaks = turned;
    place["value"] = 12.5;
    place["unit"] = "N m";
    place["error"] = 0.25;
    place["travel"] = 6;
    place["travel_error"] = 0.5;
    place["travel_unit"] = "deg";
    place["both_sides"] = place["at_clamp"] = true;
    place["sign"] = -1;
    CHECK(json_of(strength)["strength"]["nose-flex"]["breaks"] == place);
}

TEST_CASE("a case in strength.json has its flags, the index at a load, or why it was not run") {
    BoardStrength strength = strength_example();
    CaseStrength& one = strength.result.cases[0];
    one.at = IndexAtLoad{500, 0.4, -1};
    one.kink = one.before_load = true;
    one.away = failure_place();
    one.next = {failure_place()};
    strength.result.not_judged = {"base"};
    strength.result.taken = {"ribbon"};
    strength.result.cooled = "cold";
    strength.result.residual = true;
    strength.result.criterion = Criterion::max_stress;
    CaseStrength skipped;
    skipped.name = "tail-flex";
    skipped.skipped = "it has no tail";
    strength.result.cases.push_back(skipped);
    const PlainJson all = json_of(strength);
    const PlainJson& found = all["strength"]["nose-flex"];
    CHECK(found["at"] == PlainJson{{"load", 500}, {"index", 0.4}, {"sign", -1}});
    CHECK(found["kink"] == true);
    CHECK(found["before_load"] == true);
    CHECK(found["residual"] == true);
    CHECK(found["not_judged"] == PlainJson{"base"});
    CHECK(found["away"] == found["first"]);
    CHECK(found["next"] == PlainJson::array({found["first"]}));
    CHECK(all["strength"]["tail-flex"] == PlainJson{{"skipped", "it has no tail"}});
    CHECK(all["taken"] == PlainJson{"ribbon"});
    CHECK(all["residual"] == "cold");
    CHECK(all["criterion"] == "max-stress");
}

TEST_CASE("the view in strength.json: a grid in mm, loads by rows of columns, stresses in MPa") {
    StrengthView view;
    view.grid = {{-0.5, 0, 0.25}, {-0.1, -0.11, -0.12}, {0.1, 0.105, 0.115}, 2};
    view.cases = {{"nose-flex", Eigen::MatrixXd{{100, 200}, {300, std::nan("")}}, {one_ply()}}};
    const PlainJson all = json_of(strength_example(), view);
    CHECK(all["grid"] == PlainJson{{"x_mm", {-500, 0, 250}},
                                   {"right_mm", {-100, -110, -120}},
                                   {"left_mm", {100, 105, 115}},
                                   {"rows", 2}});
    const PlainJson& found = all["strength"]["nose-flex"];
    CHECK(found["lowest_load"] == PlainJson{{100, 200}, {300, nullptr}});
    REQUIRE(found["through"].size() == 1);
    const PlainJson& ply = found["through"][0];
    const PlainJson stress{{"1", {1, 2}},
                           {"2", {3, 4}},
                           {"12", {5, 6}},
                           {"13", {0.1, 0.2, 0.3}},
                           {"23", {0.4, 0.5, 0.6}}};
    CHECK(ply["layer"] == "core");
    CHECK(ply["ply"] == 3);
    CHECK(ply["ply_deg"] == -30);
    CHECK(ply["z_mm"] == PlainJson{1.5, 4});
    CHECK(ply["stress_MPa"] == stress);
    REQUIRE(ply["parts"].size() == 3);
    CHECK(ply["parts"][0]["material"] == "ash");
    CHECK(ply["parts"][0]["stress_MPa"] == stress);
    CHECK(ply["parts"][0]["strengths_MPa"] ==
          PlainJson{{"Xt", 90}, {"Xc", 40}, {"Yt", 3}, {"Yc", 5}, {"S12", 9}, {"S13", 8}});
    CHECK(ply["parts"][1]["strengths_MPa"] == PlainJson{{"Xt", 500}, {"Xc", 510}});
    CHECK(ply["parts"][2]["strengths_MPa"].is_null());
}

TEST_CASE("a bent board in strength.json has its travel in mm and the bar of its index") {
    BoardStrength strength = strength_example();
    BentIndex bent;
    bent.bench_case = "centre-flex";
    bent.travel = 0.0605;
    bent.index = {0.81654321, 0.012345, Unit::none};
    bent.place = failure_place().place;
    bent.layer = "upper glass";
    bent.at_outline = true;
    strength.result.bent = {bent};
    const PlainJson found = json_of(strength)["bent"][0];
    CHECK(found["case"] == "centre-flex");
    CHECK(found["travel_mm"] == 60.5);
    CHECK(found["index"] == 0.816543);
    CHECK(found["error"] == 0.0123);
    CHECK(found["x_mm"] == 318);
    CHECK(found["layer"] == "upper glass");
    CHECK(found["at_outline"] == true);
    CHECK(found["at_clamp"] == false);
}

TEST_CASE("an edge in strength.json has indices at its load, and loads to failure if asked for") {
    BoardStrength strength = strength_example();
    strength.result.warnings = {"of the cases"};
    EdgeStrengthResult& edge = strength.edge.emplace();
    edge.conditions = {edge_strength_example(), edge_strength_example()};
    edge.warnings = {"of the edge"};
    edge.cooled = "release";
    EdgeStrength& one = edge.conditions[0];
    one.places.away = index_place();
    one.broken = EdgeFailure{{4000, 40, Unit::force}, "", {}};
    one.broken->places.breaks = index_place();
    one.broken->places.slope = 0.3;
    edge.conditions[1].no_equilibrium = "it tips";
    PlainJson all = json_of(strength);
    CHECK(all["edge_motion"] == "small");
    CHECK(all["warnings"] == PlainJson{"of the cases", "of the edge"});
    REQUIRE(all["edge"].size() == 2);
    const PlainJson& found = all["edge"][0];
    CHECK(found["name"] == "edge 60 deg 800 N 5 N/mm3");
    CHECK(found["angle_deg"] == 60);
    CHECK(found["hardness"] == 5);
    CHECK(found["first"]["index"] == 0.8165);
    CHECK(found["first"]["error"] == 0.0123);
    CHECK(found["first"]["z_mm"] == 2.5);
    CHECK(found["away"] == found["first"]);
    CHECK_FALSE(found.contains("breaks"));
    CHECK(found["slope"] == 0.0456);
    CHECK(found["residual"] == true);
    CHECK_FALSE(found["to_failure"].contains("first"));
    const PlainJson& breaks = found["to_failure"]["breaks"];
    CHECK(breaks["value"] == 4000);
    CHECK(breaks["unit"] == "N");
    CHECK(breaks["error"] == 40);
    CHECK(breaks["slope"] == 0.3);
    CHECK(breaks["place"] == found["first"]);
    CHECK(all["edge"][1]["no_equilibrium"] == "it tips");
    CHECK_FALSE(all["edge"][1].contains("first"));
    edge.bent = true;
    one.failure = EdgeFailure{{1e5, 40, Unit::force}, "too soft", {}};
    all = json_of(strength);
    CHECK(all["edge_motion"] == "large");
    const PlainJson& first = all["edge"][0]["to_failure"]["first"];
    CHECK(first["why_not"] == "too soft");
    CHECK(first["value"] == 1e5);
    CHECK(first["error"].is_null()); // where the search ended, not a failure
}
