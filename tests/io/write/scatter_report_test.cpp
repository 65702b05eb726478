// The printed and written scatter, against lines by hand; percentiles of a normal law: 1.6449 sd.
#include "io/write/scatter_report.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/plain_json.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const DesignKind scattered_angle{DesignProperty::layer_angle};
const DesignKind scattered_core{DesignProperty::core_thickness, nullptr, DesignForm::station};

// nose-twist of 10 N m/deg, deviation 0.5, at least 9.
ScatterReport one_number() {
    ScatterReport report;
    report.board.name = "plank";
    report.scatter.sources = {{{&scattered_core, "", 2}, {0, 1}},
                              {{&scattered_angle, "glass", 0}, {2}}};
    NumberScatter number;
    number.nominal.request = {NumberId::Kind::bench_case, "nose-twist"};
    number.nominal.quantity = {10 / degree, 0.02 / degree, Unit::twist_stiffness};
    number.sd = 0.5 / degree;
    number.min = 9 / degree;
    number.yield = 0.97725;
    number.shares = {{0, 0.4 / degree, 0.64, 0.36055 / degree, 0.9972},
                     {1, 0.3 / degree, 0.36, 0.42720 / degree, {}},
                     {1, 0.001 / degree, 0.0004, 0.5 / degree, {}}};
    report.scatter.numbers = {number};
    return report;
}

void add_hand_samples(ScatterReport& report) {
    NumberScatter& number = report.scatter.numbers[0];
    for (int i = 0; i < 40; ++i) { // even from 9 to 10.95
        number.sampled.push_back((9 + 0.05 * i) / degree);
    }
    number.sampled_mean = 9.975 / degree;
    number.sampled_sd = 0.6 / degree;
    number.sampled_yield = 0.975;
    ControlledSpread spread;
    spread.mean = {9.99 / degree, 0.004 / degree};
    spread.sd = {0.51 / degree, 0.02 / degree};
    spread.p5 = 9.15 / degree;
    spread.p50 = 9.98 / degree;
    spread.p95 = 10.85 / degree;
    spread.yield = Estimate{0.976, 0.002};
    spread.plain_samples = 1234.5;
    number.controlled = spread;
    report.samples.samples = 40;
    report.samples.seed = 7;
}

} // namespace

TEST_CASE(
    "a number's line has mean, deviation, its share, 90 % of boards and yield; then sources") {
    const ScatterReport report = one_number();
    const std::string text = scatter_text(report, 10);
    CHECK_THAT(text, Contains("\nnose-twist = 10.00 +- 0.02 N m/deg, limits from 9.000\n"));
    CHECK_THAT(text, Contains("  first order: 10.000, sd 0.500 N m/deg (5.00 %), 90 % of boards "
                              "from 9.178 to 10.82; inside the limits 97.7 %\n"));
    CHECK(text_row(text, "core.thickness_mm") == "core.thickness_mm 0.400 64.0 0.361 99.7 %");
    CHECK(text_row(text, "layer.glass") == "layer.glass.angle_deg 0.300 36.0 0.427");
    CHECK_THAT(text, !Contains("0.00100") && !Contains("standard error"));
    CHECK_THAT(scatter_text(report, 1), !Contains("layer.glass"));
    ScatterReport bounded = one_number();
    bounded.scatter.numbers[0].max = 11 / degree;
    CHECK_THAT(scatter_text(bounded, 1), Contains(", limits from 9.000 to 11.00\n"));
}

TEST_CASE("samples are told with the linear model, and alone from a hundred on, with errors") {
    ScatterReport report = one_number();
    add_hand_samples(report);
    std::string text = scatter_text(report, 1);
    CHECK_THAT(text,
               Contains("  with 40 samples: 9.990 +- 0.004, sd 0.51 +- 0.02 N m/deg (5.11 %), "
                        "90 % of boards from 9.150 to 10.85; inside the limits 97.6 +- 0.2 "
                        "%\n"));
    CHECK_THAT(text, !Contains("40 samples alone") && Contains("one standard error"));
    NumberScatter& number = report.scatter.numbers[0];
    std::vector<double> more;
    for (int i = 0; i < 101; ++i) { // 9 to 10
        more.push_back((9 + 0.01 * i) / degree);
    }
    number.sampled = more;
    text = scatter_text(report, 1);
    CHECK_THAT(text,
               Contains("  101 samples alone: ") && Contains("90 % of boards from 9.050 to 9.950"));
}

TEST_CASE("the deviation of a position has no percentage, which would be one of a number near 0") {
    ScatterReport report = one_number();
    add_hand_samples(report);
    CHECK_THAT(scatter_text(report, 1), Contains("N m/deg (5.11 %)"));
    report.scatter.numbers[0].nominal.request = {NumberId::Kind::balance_x};
    CHECK_THAT(scatter_text(report, 1), Contains("sd 0.51") && !Contains("(5."));
}

TEST_CASE("scatter.json has numbers in bench units, shares as shares, errors of the samples") {
    ScatterReport report = one_number();
    add_hand_samples(report);
    const PlainJson all = PlainJson::parse(scatter_json(report));
    CHECK(all["samples"] == 40);
    CHECK(all["seed"] == 7);
    const PlainJson& twist = all["numbers"]["nose-twist"];
    const auto near = [](const PlainJson& found, double expected) {
        CHECK(found.get<double>() == Approx(expected).epsilon(1e-5));
    };
    near(twist["value"], 10);
    near(twist["error"], 0.02);
    near(twist["sd"], 0.5);
    near(twist["p5"], 10 - 1.644854 * 0.5);
    near(twist["p50"], 10);
    near(twist["p95"], 10 + 1.644854 * 0.5);
    near(twist["min"], 9);
    CHECK_FALSE(twist.contains("max"));
    CHECK(twist["yield"] == 0.97725);
    CHECK(twist["sources"][0]["source"] == "core.thickness_mm");
    near(twist["sources"][0]["sd"], 0.4);
    CHECK(twist["sources"][0]["share"] == 0.64);
    near(twist["sources"][0]["sd_if_halved"], 0.36055);
    CHECK(twist["sources"][0]["yield_if_halved"] == 0.9972);
    const PlainJson& sampled = twist["sampled"];
    near(sampled["mean"], 9.975);
    CHECK(sampled["mean_error"].get<double>() == Approx(0.6 / std::sqrt(40)).epsilon(5e-3));
    CHECK(sampled["sd_error"].get<double>() == Approx(0.6 / std::sqrt(78)).epsilon(5e-3));
    near(sampled["p5"], 9 + 0.05 * 39 * 0.05); // of even samples
    near(sampled["p50"], 9.975);
    near(sampled["p95"], 9 + 0.05 * 39 * 0.95);
    CHECK(sampled["yield_error"].get<double>() ==
          Approx(std::sqrt(0.975 * 0.025 / 40)).epsilon(5e-3));
    near(sampled["histogram"]["from"], 9);
    near(sampled["histogram"]["width"], 1.95 / 6); // six bins for forty
    int count = 0;
    for (const auto& bin : sampled["histogram"]["counts"]) {
        count += bin.get<int>();
    }
    CHECK(count == 40);
    CHECK(sampled["histogram"]["counts"].size() == 6);
    near(twist["controlled"]["p5"], 9.15);
    near(twist["controlled"]["p50"], 9.98);
    near(twist["controlled"]["p95"], 10.85);
    CHECK(twist["controlled"]["plain_samples"] == 1230);
    report.scatter.numbers[0].sampled.pop_back();
    CHECK(PlainJson::parse(scatter_json(report))["numbers"]["nose-twist"]["sampled"]["histogram"]
              .is_null());
}
