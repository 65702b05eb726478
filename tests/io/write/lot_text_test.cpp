// The tables of a lot, against rows written by hand; what the sentences say: lot_words_test.
#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/io/write/lot_report_example.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using Rows = std::vector<std::string>;

} // namespace

TEST_CASE("a lot's page starts with its size; cells without readings are not counted") {
    LotReport report = lot_report_example();
    const Rows rows = text_rows(lot_text(report));
    REQUIRE(rows.size() > 4);
    CHECK(rows[0] == "plank: 6 boards, 2 numbers, 11 cells");
    CHECK(rows[1] == "nothing found: the lot is what was predicted");
    CHECK(rows[2] == "mean as predicted: p 0.60; spread as declared: p 0.35; no change in time: p "
                     "0.40");
    report.findings.spread.reset();
    CHECK_THAT(lot_text(report), Contains("; spread as declared: not tested; "));
    CHECK_THAT(lot_text(report), Contains("  note: spread as a whole not tested"));
}

TEST_CASE("numbers stand predicted and found in their unit; what no board has stays empty") {
    LotReport report = lot_report_example();
    CHECK(text_row(lot_text(report), "mass ") == "mass 3000.0 20 3010.0 6.1 15 g 6");
    CHECK(text_row(lot_text(report), "thickness@0 ") == "thickness@0 9.7000 0.025 mm 0");
    CHECK_THAT(lot_text(report), !Contains("outlier") && !Contains("capability") &&
                                     !Contains("in tolerances") && !Contains("factor on sd"));
}

TEST_CASE("an outlier's row has its distance, its cells and how far it is off in its unit") {
    LotReport report = lot_report_example();
    report.findings.outliers = {{1, 30.06, 2, Eigen::Index{1}, {}, -2.5e-4},
                                {3, 31.0, 1, {}, Eigen::Index{2}, 1.25e9},
                                {5, 32.14, 2, {}, {}, 7}};
    CHECK(text_rows_between(lot_text(report), "boards that do not belong", "none").size() == 4);
    const std::string text = lot_text(report);
    CHECK(text_row(text, "A2 30") == "A2 30.1 2 thickness@0 -0.250 mm");
    CHECK(text_row(text, "A4 31") == "A4 31.0 1 material.ash.E1_GPa 1.25 GPa");
    CHECK(text_row(text, "A6 32") == "A6 32.1 2");
}

TEST_CASE("a change has a row as a step and one as a ramp, with how far its value moved") {
    LotReport report = lot_report_example();
    CHECK_THAT(lot_text(report), !Contains("what changed"));
    report.findings.changed = true;
    report.findings.change.value = 2;
    report.findings.change.step = {12.53, 2, 1, 3, -1.2345e9, 0.234e9};
    report.findings.change.ramp = {9.5, 4, 3, 5, -2.5e9, 0.6e9};
    const std::string text = lot_text(report);
    CHECK(text_row(text, "material.ash.E1_GPa step") ==
          "material.ash.E1_GPa step A3 A2 A4 -1.23 0.23 GPa 12.5");
    CHECK(text_row(text, "material.ash.E1_GPa ramp") ==
          "material.ash.E1_GPa ramp A5 A4 A6 -2.50 0.60 GPa 9.5");
}

TEST_CASE("explanations of the mean name the chance once, shifts in units and in tolerances") {
    LotReport report = lot_report_example();
    LotMoved& moved = report.findings.moved;
    moved.explained = true;
    moved.explanations = {{0.31, {{0, -1.5e-4, 2e-5}, {2, 1e9, 4e8}}},
                          {0.062, {{1, 3 * degree, 0.5 * degree}}}};
    CHECK(text_rows_between(lot_text(report), "what alone explains the mean, smallest first",
                            "x") == Rows{"p value shift sd in tolerances",
                                         "0.31 core.thickness_mm[3] -0.150 0.020 mm -1.5",
                                         "material.ash.E1_GPa 1.00 0.40 GPa 0.5",
                                         "0.06 layer.glass.angle_deg 3.00 0.50 deg 3.0"});
    moved.explained = false;
    CHECK_THAT(lot_text(report), Contains("\nwhat comes nearest to the mean\n"));
    moved.explanations.resize(11, {0.04, {{1, degree, degree}}});
    CHECK(text_rows_between(lot_text(report), "what comes nearest", "and 3").size() == 1 + 2 + 7);
    CHECK_THAT(lot_text(report), Contains("  and 3 more in lot.json\n"));
    moved.explanations.resize(8);
    CHECK_THAT(lot_text(report), !Contains("more in lot.json"));
}

TEST_CASE("of all values at once those above half a tolerance are shown, largest first") {
    LotReport report = lot_report_example();
    report.findings.moved.held = {{0, 0.49e-4, 1e-5}, // just below half of 0.1 mm
                                  {1, -0.6 * degree, 0.2 * degree},
                                  {2, 3e9, 1e9}};
    const Rows rows = text_rows_between(lot_text(report), "all values at once", "x");
    REQUIRE(rows.size() == 3);
    CHECK(rows[1] == "material.ash.E1_GPa 3.00 1.0 GPa 1.5");
    CHECK(rows[2] == "layer.glass.angle_deg -0.600 0.20 deg -0.6");
    report.findings.moved.held.assign(14, {2, 3e9, 1e9});
    CHECK(text_rows_between(lot_text(report), "all values at once", "x").size() == 1 + 10);
}

TEST_CASE("factors on variances are shown as factors on deviations, together as they are") {
    LotReport report = lot_report_example();
    report.findings.factors = {{1, 6.25, 2.25, 16.0, 0.012, 0.036}, {2, 0.04, 0.01, {}, 0.3, 0.6}};
    report.findings.joint = {{1, 6.25, 2.5}, {0, 1.125, 0.333}};
    const std::string text = lot_text(report);
    CHECK(text_row(text, "layer.angle_deg ") == "layer.angle_deg 2.50 1.50 4.00 0.01 0.04");
    CHECK(text_row(text, "material.ash ") == "material.ash 0.20 0.10 any 0.30 0.60");
    const Rows joint = text_rows_between(text, "tested together", "x");
    REQUIRE(joint.size() == 3);
    CHECK(joint[1] == "layer.angle_deg 6.25 2.50");
    CHECK(joint[2] == "core.thickness_mm 1.12 0.33");
    report.findings.factors.assign(12, {1, 6.25, 2.25, 16.0, 0.012, 0.036});
    CHECK(text_rows_between(lot_text(report), "how each scatters", "tested").size() == 1 + 8);
}

TEST_CASE("a capability's row has mean and deviation in units, shares in percent, Cpk plain") {
    LotReport report = lot_report_example();
    Capability one;
    one.mean = 3.0123;
    one.sd = 0.01234;
    one.outside = 0.021;
    one.low = 0.004;
    one.high = 0.095;
    one.cpk = 0.678;
    one.cpk_half_width = 0.211;
    report.findings.numbers[0].built = one;
    CHECK(text_row(lot_text(report), "mass all") ==
          "mass all 3012.3 12.3 2.1 % 0.40 % 9.5 % 0.68 0.21");
    report.findings.about = LotBoards::before_change;
    one.cpk = -0.5;
    report.findings.numbers[0].late = one;
    CHECK(text_row(lot_text(report), "mass before").starts_with("mass before 3012.3"));
    CHECK(text_row(lot_text(report), "mass last fifth") ==
          "mass last fifth 3012.3 12.3 2.1 % 0.40 % 9.5 % -0.50 0.21");
}

TEST_CASE("the plan tells boards needed, fewest first, and what to measure next") {
    LotReport report = lot_report_example();
    LotPlan plan;
    plan.boards = {{0, 12.6, {}}, {1, 2.4, 1e6}, {2, 2e6, 999999.4}};
    plan.candidates = {"nose-twist", "EI@0"};
    plan.next = {{{}, 0, 3.456, {}}, {{1}, 1.234, 2.1, {}}, {{0, 1}, 2.5, 1.0, {}}};
    plan.lot = 40;
    plan.interest = {2, 0};
    report.plan = plan;
    std::string text = lot_text(report);
    const Rows needed = text_rows_between(text, "boards needed (error 0.05, power 0.9)", "what to");
    REQUIRE(needed.size() == 4);
    CHECK(needed[1] == "layer.glass.angle_deg 2 never");
    CHECK(needed[2] == "core.thickness_mm[3] 13 never");
    CHECK(needed[3] == "material.ash.E1_GPa never 999999");
    CHECK_THAT(text, Contains("what to measure next, of 40 boards (D: information gained; A: "
                              "variances left, in tolerances squared)\n"));
    CHECK(text_row(text, "nothing 0") == "nothing 0.00 3.46");
    CHECK(text_row(text, "EI@0") == "EI@0 1.23 2.10");
    CHECK(text_row(text, "nose-twist and") == "nose-twist and EI@0 2.50 1.00");
    CHECK(text_rows(text).back() ==
          "D and A are about the shifts of material.ash.E1_GPa, core.thickness_mm[3]");
    report.plan->rivals = {1, 2};
    report.plan->next[1].rivals = 0.12345;
    text = lot_text(report);
    CHECK_THAT(text, Contains("; rivals: variance left between layer.glass.angle_deg and "
                              "material.ash.E1_GPa)"));
    CHECK(text_row(text, "EI@0") == "EI@0 1.23 2.10 0.123");
    CHECK_THAT(text, Contains("rivals apart"));
}
