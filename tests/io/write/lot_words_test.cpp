// What is said of a lot, against sentences written by hand from findings written by hand.
#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/io/write/lot_report_example.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

using Lines = std::vector<std::string>;

LotReport changed_lot() {
    LotReport report = lot_report_example();
    LotFindings& found = report.findings;
    found.changed = true;
    found.change.value = 2;
    found.change.p = 0.004;
    found.change.step = {12.5, 2, 1, 3, -1.2345e9, 0.234e9};
    found.change.ramp = {12.0, 4, 4, 4, -2.5e9, 0.6e9};
    return report;
}

} // namespace

TEST_CASE("a share of boards has two digits below ten percent and none after the point above") {
    CHECK(share_text(0.5) == "50 %");
    CHECK(share_text(0.104) == "10 %");
    CHECK(share_text(0.1) == "10 %");
    CHECK(share_text(0.0994) == "9.9 %");
    CHECK(share_text(0.0123) == "1.2 %");
    CHECK(share_text(0.00021) == "0.021 %");
    CHECK(share_text(0.000011) == "0.0011 %");
    CHECK(share_text(0.0000099) == "0 %");
}

TEST_CASE("a chance has one digit below a tenth, two above, and no digits below 0.0001") {
    CHECK(chance_text(0.9876) == "0.99");
    CHECK(chance_text(0.1) == "0.10");
    CHECK(chance_text(0.0961) == "0.1");
    CHECK(chance_text(0.0042) == "0.004");
    CHECK(chance_text(0.0001) == "0.0001");
    CHECK(chance_text(0.000099) == "below 0.0001");
}

TEST_CASE("a lot in which nothing was found has no line and no note") {
    const LotReport report = lot_report_example();
    CHECK(lot_lines(report).empty());
    CHECK(lot_notes(report).empty());
}

TEST_CASE("an outlier is told with its reading, else its value, each in its own unit and sign") {
    LotReport report = lot_report_example();
    LotOutlier reading{1, 30, 2, Eigen::Index{0}, {}, -0.0253};
    LotOutlier value{3, 31, 2, {}, Eigen::Index{1}, 2.5 * degree};
    LotOutlier neither{5, 32, 2, {}, {}, 0};
    report.findings.outliers = {reading, value, neither};
    CHECK(lot_lines(report) ==
          Lines{"A2 does not belong: mass alone: measure again (it is -25.3 g from what its other "
                "readings say)",
                "A4 does not belong: most likely layer.glass.angle_deg off by +2.50 deg",
                "A6 does not belong: nothing explains it"});
}

TEST_CASE(
    "a change names its first board, the boards it may be, the day, the press, the value and by "
    "how much it moved, of a ramp until the last board") {
    LotReport report = changed_lot();
    CHECK(lot_lines(report) == Lines{"from about A3 (step, A2 to A4, 2031-05-03, press P2) "
                                     "material.ash.E1_GPa by -1.23 GPa +- 0.23, p 0.004"});
    report.findings.change.shape = ChangeShape::ramp; // one board, without a press
    CHECK(lot_lines(report) == Lines{"from about A5 (ramp, that board, 2031-05-05) "
                                     "material.ash.E1_GPa by -2.50 GPa +- 0.60 until the last "
                                     "board, p 0.004"});
    report.findings.change.ramp.first = 3; // without a date
    CHECK(lot_lines(report) == Lines{"from about A4 (ramp, that board, press P2) "
                                     "material.ash.E1_GPa by -2.50 GPa +- 0.60 until the last "
                                     "board, p 0.004"});
}

TEST_CASE("of a change's rivals four are named and the others counted") {
    LotReport report = changed_lot();
    report.findings.change.rivals = {0, 1};
    const std::string start =
        "from about A3 (step, A2 to A4, 2031-05-03, press P2) "
        "material.ash.E1_GPa by -1.23 GPa +- 0.23, or core.thickness_mm[3], or "
        "layer.glass.angle_deg";
    CHECK(lot_lines(report) == Lines{start + ", p 0.004"});
    report.findings.change.rivals = {0, 1, 1, 0, 2, 2, 2};
    CHECK(lot_lines(report) == Lines{start + ", or layer.glass.angle_deg, or core.thickness_mm[3]"
                                             ", or one of 3 more, p 0.004"});
}

TEST_CASE("a mean that moved is told with what explains it, and with how many other sets do") {
    LotReport report = lot_report_example();
    LotMoved& moved = report.findings.moved;
    moved.p = 0.0099;
    CHECK(lot_lines(report) == Lines{"the mean is not as predicted, p 0.01: no set of up to three "
                                     "values explains it"});
    moved.degrees = 1;
    CHECK(lot_lines(report) == Lines{"the mean is not as predicted, p 0.01: one number alone does "
                                     "not tell which value moved"});
    moved.degrees = 2;
    moved.explanations = {{0.02, {{0, -1.234e-4, 2.26e-5}, {2, 1.5e9, 4e8}}}};
    const std::string shifts = "core.thickness_mm[3] -0.123 mm +- 0.023 and material.ash.E1_GPa "
                               "+1.50 GPa +- 0.40";
    CHECK(lot_lines(report) == Lines{"the mean is not as predicted, p 0.01: no set of up to three "
                                     "values explains it; nearest: " +
                                     shifts});
    moved.explained = true;
    const std::string start = "the mean is not as predicted, p 0.01: " + shifts + " explains it";
    CHECK(lot_lines(report) == Lines{start});
    moved.explanations.resize(3);
    CHECK(lot_lines(report) == Lines{start + ", and so do 2 others"});
    moved.explanations.resize(19);
    CHECK(lot_lines(report) == Lines{start + ", and so do 18 others"});
    moved.explanations.resize(20); // as many as are sought
    CHECK(lot_lines(report) == Lines{start + ", and so do 19 or more others"});
    moved.p = 0.01;
    CHECK(lot_lines(report).empty());
}

TEST_CASE("a factor on a variance is told as its root, with more or less, and its interval") {
    LotReport report = lot_report_example();
    report.findings.spread->p = 0.002;
    report.findings.factors = {{1, 6.25, 2.25, 16.0, 0.0001, 0.0003},
                               {2, 0.04, 0.01, {}, 0.003, 0.006},
                               {0, 9, 4, 16.0, 0.005, 0.01}}; // at the level: no finding
    CHECK(lot_lines(report) ==
          Lines{"the lot does not scatter as declared, p 0.002",
                "layer.angle_deg scatters more than declared: 2.5 times its standard deviation "
                "(1.5 to 4.0), p 0.0003",
                "material.ash scatters less than declared: 0.20 times its standard deviation "
                "(0.10 to any), p 0.006"});
}

TEST_CASE("boards outside limits are told above the share that is allowed, of each part of the "
          "lot") {
    LotReport report = lot_report_example();
    Capability one;
    one.outside = 0.034;
    one.low = 0.011;
    one.high = 0.12;
    report.findings.numbers[0].built = one;
    one.outside = 0.01; // as many as are allowed
    report.findings.numbers[1].built = one;
    CHECK(lot_lines(report) == Lines{"mass: 3.4 % of boards outside the limits (1.1 % to 12 %)"});
    report.findings.about = LotBoards::before_change;
    one.outside = 0.25;
    report.findings.numbers[1].late = one;
    CHECK(lot_lines(report) ==
          Lines{"mass: 3.4 % of boards outside the limits (1.1 % to 12 %) before the change",
                "thickness@0: 25 % of boards outside the limits (1.1 % to 12 %) in the last fifth "
                "of the lot"});
    report.most_outside = 0.25;
    CHECK(lot_lines(report).empty());
}

TEST_CASE("notes tell which boards the tables cover and what was allowed for or not tested") {
    LotReport report = changed_lot();
    LotFindings& found = report.findings;
    CHECK(lot_notes(report) == Lines{"too few boards before the change and after it: the tables "
                                     "cover all boards"});
    found.used = {0, 1};
    found.about = LotBoards::before_change;
    CHECK(lot_notes(report) == Lines{"the tables cover the 2 boards before the change"});
    found.used = {2, 3, 4};
    found.about = LotBoards::after_change;
    CHECK(lot_notes(report) == Lines{"the tables cover the 3 boards after the change, as there are "
                                     "too few before it"});
    found = lot_report_example().findings;
    found.wide = GroupFactor{2, 12.25, 1, {}};
    found.columns_holm = {0.0021};
    found.spread.reset();
    found.numbers[0].built.emplace();
    found.numbers[1].built.emplace().rig_too_coarse = true;
    CHECK(lot_notes(report) ==
          Lines{"outliers, change and mean allow for material.ash scattering by 3.5 times its "
                "standard deviation about the running median",
                "boards differ by press, p 0.002",
                "spread as a whole not tested: fewer than three complete boards per number",
                "the rig is too coarse for thickness@0: most of the scatter of its readings is "
                "noise"});
    found.columns[0].degrees = 0; // one group only
    CHECK(lot_notes(report).size() == 3);
}

TEST_CASE("many outliers are counted by reading in one sentence, before all else") {
    LotReport report = changed_lot();
    for (Index i = 0; i < 7; ++i) {
        report.findings.outliers.push_back({i % 6, 30, 2, i % 3, {}, 0.1});
    }
    report.findings.outliers[2] = {2, 30, 2, {}, Index{1}, 0.1};
    report.findings.outliers[5] = {5, 30, 2, {}, {}, 0};
    const Lines lines = lot_lines(report);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] == "7 of 6 boards do not belong, each is below; measure again 3 by mass, 2 by "
                      "thickness@0; 2 by a value or by nothing");
    CHECK(lines[1].starts_with("from about A3"));
}

TEST_CASE("a value that moved by more than five times its tolerance is doubted as the cause") {
    LotReport report = changed_lot();
    CHECK_THAT(lot_lines(report).at(0), !Catch::Contains("times its tolerance")); // 0.6 of it
    report.findings.change.step.shift = 13.4e9;
    CHECK_THAT(lot_lines(report).at(0),
               Catch::Contains("by +13.4 GPa +- 0.23 (6.7 times its tolerance: look for a cause "
                               "that is none of the values)"));
}
