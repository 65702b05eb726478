// lot.json against values written by hand; its strips: lot_strips_test, its lines: lot_words_test.
#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/io/write/lot_report_example.hpp"
#include "tests/plain_json.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

PlainJson json_of(const LotReport& report) {
    return PlainJson::parse(lot_json(report));
}

} // namespace

TEST_CASE("lot.json names board, boards, cells and numbers, each in its unit") {
    LotReport report = lot_report_example();
    report.findings.used = {1, 2, 4};
    report.warnings = {"a warning"};
    const PlainJson all = json_of(report);
    CHECK(all["format"] == 1);
    CHECK(all["board"] == PlainJson{{"name", "plank"}, {"hash", "0123abcd"}});
    CHECK(all["boards"] == 6);
    CHECK(all["cells"] == 11);
    CHECK(all["used"] == 3);
    CHECK(all["warnings"] == PlainJson{"a warning"});
    CHECK(all["findings"] == PlainJson::array());
    CHECK(all["change_p"] == 0.4);
    CHECK(all["change"].is_null());
    CHECK(all["wide"].is_null());
    REQUIRE(all["numbers"].size() == 2);
    const PlainJson& mass = all["numbers"][0];
    CHECK(mass["number"] == "mass");
    CHECK(mass["unit"] == "g");
    CHECK(mass["predicted"] == PlainJson{{"mean", 3000}, {"sd", 20}});
    CHECK(mass["found"] == PlainJson{{"mean", 3010}, {"mean_sd", 6.1}, {"sd", 15}});
    CHECK(mass["cells"] == 6);
    CHECK(mass["rig_sd"] == 4);
    CHECK(mass["rig_sd_of_repeats"] == true);
    CHECK(mass["bias_sd"] == 1);
    CHECK(mass["variance_ratio"] == PlainJson{{"value", 0.5625}, {"low", 0.22}, {"high", 3.38}});
    CHECK(mass["cpk"].is_null());
    CHECK(mass["limits"] == PlainJson{{"min", 2900}, {"max", nullptr}});
    const PlainJson& thickness = all["numbers"][1];
    CHECK(thickness["predicted"] == PlainJson{{"mean", 9.7}, {"sd", 0.025}});
    CHECK(thickness["rig_sd"] == 0.02);
    CHECK(thickness["rig_sd_of_repeats"] == false);
    CHECK(thickness["bias_sd"] == 0.01);
    CHECK(thickness["limits"].is_null());
    CHECK_FALSE(thickness.contains("built"));
}

TEST_CASE("lot.json has a number's capability in its unit, its shares as shares") {
    LotReport report = lot_report_example();
    Capability one;
    one.mean = 3.01;
    one.sd = 0.012;
    one.outside = 0.02;
    one.low = 0.01;
    one.high = 0.05;
    one.cpk = 0.7;
    one.cpk_half_width = 0.2;
    report.findings.numbers[0].built = one;
    one.rig_too_coarse = true;
    one.cpk = std::nan("");
    report.findings.numbers[0].late = one;
    const PlainJson mass = json_of(report)["numbers"][0];
    const PlainJson outside{{"value", 0.02}, {"low", 0.01}, {"high", 0.05}};
    CHECK(mass["cpk"] == 0.7);
    CHECK(mass["outside"] == outside);
    PlainJson built{
        {"mean", 3010},          {"sd", 12},          {"rig_too_coarse", false}, {"cpk", 0.7},
        {"cpk_half_width", 0.2}, {"outside", outside}};
    CHECK(mass["built"] == built);
    built["rig_too_coarse"] = true;
    built["cpk"] = nullptr;
    CHECK(mass["late"] == built);
}

TEST_CASE("lot.json tells outliers and the change with both shapes that were tried") {
    LotReport report = lot_report_example();
    report.findings.outliers = {{1, 30.5, 2, Eigen::Index{1}, {}, -2.5e-4},
                                {3, 31, 1, {}, Eigen::Index{1}, 2.5 * degree},
                                {5, 32, 2, {}, {}, 7}};
    LotChange& change = report.findings.change;
    report.findings.changed = true;
    change = {
        2,     ChangeShape::ramp, {12.5, 2, 1, 3, 1.5e9, 0.5e9}, {13, 4, 3, 5, 2e9, 0.25e9}, 0.004,
        {1, 0}};
    const PlainJson all = json_of(report);
    CHECK(all["outliers"] == PlainJson::array({PlainJson{{"serial", "A2"},
                                                         {"distance", 30.5},
                                                         {"cells", 2},
                                                         {"reading", "thickness@0"},
                                                         {"by", -0.25},
                                                         {"unit", "mm"}},
                                               PlainJson{{"serial", "A4"},
                                                         {"distance", 31},
                                                         {"cells", 1},
                                                         {"value", "layer.glass.angle_deg"},
                                                         {"by", 2.5},
                                                         {"unit", "deg"}},
                                               PlainJson{{"serial", "A6"},
                                                         {"distance", 32},
                                                         {"cells", 2},
                                                         {"value", ""},
                                                         {"by", 7},
                                                         {"unit", ""}}}));
    const auto shape = [](double G2, const char* first, const char* from, const char* to, double by,
                          double sd) {
        return PlainJson{{"first", first},
                         {"set", PlainJson::array({from, to})},
                         {"chi_square", G2},
                         {"by", by},
                         {"by_sd", sd}};
    };
    CHECK(all["change"] ==
          PlainJson{{"value", "material.ash.E1_GPa"},
                    {"by", 2},
                    {"by_sd", 0.25},
                    {"unit", "GPa"},
                    {"shape", "ramp"},
                    {"first", "A5"},
                    {"set", PlainJson::array({"A4", "A6"})},
                    {"p", 0.004},
                    {"rivals", PlainJson::array({"layer.glass.angle_deg", "core.thickness_mm[3]"})},
                    {"step", shape(12.5, "A3", "A2", "A4", 1.5, 0.5)},
                    {"ramp", shape(13, "A5", "A4", "A6", 2, 0.25)}});
    change.shape = ChangeShape::step;
    CHECK(json_of(report)["change"]["first"] == "A3");
    CHECK(json_of(report)["change"]["shape"] == "step");
}

TEST_CASE("lot.json has shifts with tolerance and nominal value, all in the value's unit") {
    LotReport report = lot_report_example();
    LotMoved& moved = report.findings.moved;
    moved.statistic = 15.5;
    moved.degrees = 2;
    moved.explained = true;
    moved.explanations = {{0.25, {{1, -3 * degree, 0.5 * degree}}}};
    moved.held = {{0, 2e-5, 1e-5}, {2, -1.5e9, 5e8}};
    moved.alike = {{0, 2}};
    const PlainJson all = json_of(report);
    const auto shift = [](const char* value, double by, double sd, const char* unit,
                          double tolerance, double nominal) {
        return PlainJson{{"value", value},         {"shift", by},       {"sd", sd}, {"unit", unit},
                         {"tolerance", tolerance}, {"nominal", nominal}};
    };
    CHECK(all["mean"] ==
          PlainJson{{"statistic", 15.5}, {"degrees", 2}, {"p", 0.6}, {"explained", true}});
    CHECK(all["explanations"] == PlainJson::array({PlainJson{
                                     {"p", 0.25},
                                     {"shifts", PlainJson::array({shift("layer.glass.angle_deg", -3,
                                                                        0.5, "deg", 1, 45)})}}}));
    CHECK(all["shifts"] == PlainJson{shift("core.thickness_mm[3]", 0.02, 0.01, "mm", 0.1, 7.1),
                                     shift("material.ash.E1_GPa", -1.5, 0.5, "GPa", 2, 12)});
    CHECK(all["told_apart_badly"] ==
          PlainJson::array({PlainJson::array({"core.thickness_mm[3]", "material.ash.E1_GPa"})}));
}

TEST_CASE("lot.json has what scatters as factors on variances, text columns and the spread") {
    LotReport report = lot_report_example();
    LotFindings& found = report.findings;
    found.factors = {{1, 6.25, 2.25, 16.0, 0.012, 0.036}, {2, 0.04, 0.01, {}, 0.3, 0.6}};
    found.joint = {{0, 1.5, 0.25}};
    found.wide = GroupFactor{2, 12.25, 1, {}};
    found.columns_holm = {0.44};
    const PlainJson all = json_of(report);
    CHECK(all["scatter"] == PlainJson::array({PlainJson{{"group", "layer.angle_deg"},
                                                        {"factor", 6.25},
                                                        {"low", 2.25},
                                                        {"high", 16},
                                                        {"p", 0.012},
                                                        {"holm", 0.036}},
                                              PlainJson{{"group", "material.ash"},
                                                        {"factor", 0.04},
                                                        {"low", 0.01},
                                                        {"high", nullptr},
                                                        {"p", 0.3},
                                                        {"holm", 0.6}}}));
    CHECK(all["scatter_together"] ==
          PlainJson::array(
              {PlainJson{{"group", "core.thickness_mm"}, {"factor", 1.5}, {"sd", 0.25}}}));
    CHECK(all["wide"] == PlainJson{{"group", "material.ash"}, {"factor", 12.25}});
    CHECK(all["columns"] ==
          PlainJson::array(
              {PlainJson{{"column", "press"}, {"degrees", 1}, {"p", 0.22}, {"holm", 0.44}}}));
    CHECK(all["spread"] ==
          PlainJson{{"statistic", 3.25}, {"degrees", 3}, {"p", 0.35}, {"boards", 6}});
}

TEST_CASE("lot.json has the plan: boards to see one tolerance, and the next readings") {
    LotReport report = lot_report_example();
    CHECK(json_of(report)["plan"] == PlainJson::object());
    LotPlan plan;
    plan.boards = {{0, 12.5, {}}, {1, 2.5, 100.0}};
    plan.candidates = {"nose-twist", "EI@0"};
    plan.next = {{{}, 0, 3.5, {}}, {{1, 0}, 1.25, 2, 0.125}};
    plan.lot = 40;
    plan.rivals = {1, 2};
    plan.interest = {2, 0};
    report.plan = plan;
    const PlainJson found = json_of(report)["plan"];
    CHECK(found["boards"] == PlainJson::array({PlainJson{{"value", "core.thickness_mm[3]"},
                                                         {"shift", 0.1},
                                                         {"alone", 12.5},
                                                         {"all", nullptr}},
                                               PlainJson{{"value", "layer.glass.angle_deg"},
                                                         {"shift", 1},
                                                         {"alone", 2.5},
                                                         {"all", 100}}}));
    CHECK(found["lot"] == 40);
    CHECK(found["rivals"] == PlainJson::array({"layer.glass.angle_deg", "material.ash.E1_GPa"}));
    CHECK(found["of_interest"] ==
          PlainJson::array({"material.ash.E1_GPa", "core.thickness_mm[3]"}));
    CHECK(
        found["next"] ==
        PlainJson{
            PlainJson{{"readings", PlainJson::array()}, {"D", 0}, {"A", 3.5}, {"rivals", nullptr}},
            PlainJson{{"readings", PlainJson::array({"EI@0", "nose-twist"})},
                      {"D", 1.25},
                      {"A", 2},
                      {"rivals", 0.125}}});
}
