// What the report draws of a lot: closed forms of NIST/SEMATECH e-Handbook 6.3.2.3 and 6.3.2.4.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/io/write/lot_report_example.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

using Values = std::vector<double>;

void check_near(const Values& found, const Values& expected) {
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        CAPTURE(i);
        CHECK(found[i] == Approx(expected[i]).margin(1e-12));
    }
}

// One number y = 3 v with v of deviation 1 and a rig of 4, so that a reading's deviation is 5.
LotReport lot_of_deviation_five(const Values& readings) {
    const auto boards = static_cast<Eigen::Index>(readings.size());
    LotReport report;
    report.numbers = {{"length", "mm", 1e3}};
    report.values = {{"v", "", 1}};
    report.groups = {"v"};
    LotModel& model = report.model;
    model.mean = Eigen::VectorXd::Constant(1, 70); // the lot's own mean counts
    model.slopes = Eigen::MatrixXd::Constant(1, 1, 3);
    model.value_sd = Eigen::VectorXd::Ones(1);
    model.rig_sd = Eigen::VectorXd::Constant(1, 4);
    model.bias_sd = Eigen::VectorXd::Zero(1);
    model.group = {0};
    model.groups = 1;
    model.free = {0};
    report.readings.value = Eigen::Map<const Eigen::RowVectorXd>(readings.data(), boards);
    report.readings.count = Eigen::MatrixXi::Ones(1, boards);
    for (Eigen::Index i = 0; i < boards; ++i) {
        report.serials.push_back("S" + std::to_string(i));
        report.dates.emplace_back();
    }
    report.findings.numbers = {{70, 5, {100, 5, static_cast<int>(boards)}, 1, {}, {}}};
    return report;
}

} // namespace

TEST_CASE("the moving average of a number starts at its mean; a board that does not belong is "
          "drawn and passed over") {
    LotReport report = lot_of_deviation_five({110, 90, 900, 100});
    report.findings.outliers = {{2, 99, 1, Eigen::Index{0}, {}, 800}};
    const LotStrip strip = lot_strips(report).numbers.at(0);
    CHECK(strip.number == "length");
    CHECK(strip.unit == "mm");
    CHECK(strip.centre.value == 100e3);
    check_near(strip.readings, {110e3, 90e3, 900e3, 100e3});
    check_near(strip.ewma, {102e3, 99.6e3, 99.6e3, 99.68e3}); // z = 0.2 y + 0.8 z
    const auto half = [](int i) { // 3 sigma sqrt(w / (2 - w) (1 - (1 - w)^2i))
        return 3 * 5e3 * std::sqrt(0.2 / 1.8 * (1 - std::pow(0.8, 2 * i)));
    };
    CHECK(half(1) == Approx(3e3)); // 3 w sigma
    check_near(strip.half_width, {half(1), half(2), half(2), half(3)});
}

TEST_CASE("a number that no two boards have is drawn about what was predicted") {
    LotReport report = lot_of_deviation_five({110, 90});
    report.findings.numbers[0].found = {};
    const LotStrip strip = lot_strips(report).numbers.at(0);
    CHECK(strip.centre.value == 70e3);
    check_near(strip.ewma, {78e3, 80.4e3});
}

TEST_CASE("sums of the score of what changed run about the mean found, slack 0.5, signal above 5") {
    LotReport report = lot_of_deviation_five({110, 95, 120, 120, 100, 90});
    CHECK_FALSE(lot_strips(report).score);
    LotFindings& found = report.findings;
    found.changed = true;
    found.change.value = 0;
    found.change.step = {20, 2, 1, 3};
    const LotStrips strips = lot_strips(report);
    REQUIRE(strips.score);
    CHECK(strips.score->value == "v");
    CHECK(strips.score->limit == 5);
    check_near(strips.score->upper, {1.5, 0, 3.5, 7, 6.5, 4}); // scores 2, -1, 4, 4, 0, -2
    check_near(strips.score->lower, {0, 0.5, 0, 0, 0, 1.5});
    REQUIRE(strips.score->signal);
    CHECK(*strips.score->signal == "S3");
    REQUIRE(strips.change);
    CHECK(*strips.change == std::array<std::size_t, 3>{2, 1, 3});
    report.readings.value(0, 3) = 105; // the sum is 4 and stays below
    CHECK_FALSE(lot_strips(report).score->signal);
}

TEST_CASE("a thousand boards are all drawn; of more every so-manieth, with its words and places") {
    LotReport report = lot_of_deviation_five(Values(1000, 100));
    CHECK(lot_strips(report).serials.size() == 1000);
    Values readings(2500);
    for (std::size_t i = 0; i < readings.size(); ++i) {
        readings[i] = static_cast<double>(i);
    }
    report = lot_of_deviation_five(readings);
    report.dates[5] = "day 5";
    report.texts = {{"press", report.serials}};
    report.findings.outliers = {{5, 99, 1, {}, {}, 0}, {6, 99, 1, {}, {}, 0}};
    report.findings.changed = true;
    report.findings.change.shape = ChangeShape::ramp;
    report.findings.change.ramp = {20, 2000, 1995, 2001};
    const LotStrips strips = lot_strips(report);
    REQUIRE(strips.serials.size() == 1002); // 5 and 6 are of one run of 2.5 boards, 2000 and 2001
    CHECK(strips.serials[2] == "S5");
    CHECK(strips.serials[3] == "S6");
    CHECK(strips.dates[2] == "day 5");
    REQUIRE(strips.texts.size() == 1);
    CHECK(strips.texts[0].column == "press");
    CHECK(strips.texts[0].words == strips.serials);
    CHECK(strips.numbers[0].readings[3] == 6e3);
    CHECK(strips.outliers == std::vector<std::size_t>{2, 3}); // themselves
    REQUIRE(strips.change);
    for (const auto& [at, serial] : {std::pair(0, "S2000"), {1, "S1995"}, {2, "S2001"}}) {
        CHECK(strips.serials[(*strips.change)[static_cast<std::size_t>(at)]] == serial);
    }
    CHECK(lot_strips(report).serials == strips.serials); // the same every time
}

TEST_CASE("of thousands of boards that presses make by turns every press is drawn as often") {
    constexpr int boards = 2999;
    LotReport report = lot_of_deviation_five(Values(boards, 100));
    LotText press{"press", {}};
    for (int i = 0; i < boards; ++i) {
        press.words.push_back(std::to_string(i % 3));
    }
    report.texts = {press};
    const LotStrips strips = lot_strips(report);
    const std::vector<std::string>& words = strips.texts.at(0).words;
    const auto half = words.begin() + 500;
    for (const char* name : {"0", "1", "2"}) {
        CAPTURE(name);
        CHECK(std::count(words.begin(), half, name) > 120); // 167 expected, deviation 10.5
        CHECK(std::count(half, words.end(), name) > 120);
    }
}
