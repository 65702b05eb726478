// Scatter of a number read back: its bell, limits and sources.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "io/report/findings.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

ScatteredNumber scattered_by_hand() {
    ScatteredNumber number;
    number.name = "mass";
    number.quantity = Measured{BenchQuantity{3.0, 0, "kg"}};
    number.sd = 0.1;
    number.min = 2.9;
    number.yield = 0.84;
    number.sources = {{"core.thickness_mm", 0.08, 0.64, 0.075, 0.9},
                      {"layer.angle", 0.06, 0.36, 0.085, 0.88}};
    return number;
}

} // namespace

TEST_CASE("a bell is highest at its mean and falls as the normal law does, a limit at its place") {
    const std::string picture = bell_picture(scattered_by_hand(), "b");
    const Ruler x = ruler(picture, false);
    CHECK(x.at(drawn(picture, "line", "cut").at(0).number("x1")) == Approx(3).margin(1e-3));
    const auto bell = drawn(picture, "polyline", "curve C0").at(0).points();
    const double foot = drawn(picture, "line", "zero").back().number("y1");
    double top = 0;
    for (const auto& [place, height] : bell) {
        top = std::max(top, foot - height);
    }
    for (const auto& [place, height] : bell) {
        const double z = (x.at(place) - 3) / 0.1;
        CHECK((foot - height) / top == Approx(std::exp(-z * z / 2)).margin(2e-3));
    }
    const auto limit = drawn(picture, "line", "limit").at(0);
    CHECK(x.at(limit.number("x1")) == Approx(2.9).margin(1e-3));
    const auto beyond = drawn(picture, "rect", "beyond").at(0);
    CHECK(beyond.number("x") + beyond.number("width") == Approx(limit.number("x1")).margin(0.02));
    CHECK(drawn_text(picture, "min 2.9").number("x") > limit.number("x1"));
    ScatteredNumber still = scattered_by_hand();
    still.sd = 0;
    CHECK(bell_picture(still, "b").empty());
}

TEST_CASE("a histogram has the area of the bell: bins are as high as their share of samples") {
    ScatteredNumber number = scattered_by_hand();
    SampledSpread& sampled = number.sampled.emplace();
    sampled.histogram = Histogram{2.8, 0.1, {1, 3, 4, 2}};
    const std::string picture = bell_picture(number, "b");
    const Ruler x = ruler(picture, false);
    auto bins = drawn(picture, "rect", "hist");
    REQUIRE(bins.size() == 5); // and the key
    bins.erase(std::remove_if(bins.begin(), bins.end(),
                              [](const DrawnElement& one) { return one.number("y") < 20; }),
               bins.end());
    REQUIRE(bins.size() == 4);
    CHECK(x.at(bins[0].number("x")) == Approx(2.8).margin(1e-3));
    CHECK(bins[0].number("width") * x.per_px == Approx(0.1).margin(1e-3));
    CHECK(bins[2].number("height") == Approx(4 * bins[0].number("height")).epsilon(1e-3));
    const double foot = drawn(picture, "line", "zero").back().number("y1");
    double top = 0;
    for (const auto& [place, height] : drawn(picture, "polyline", "curve C0").at(0).points()) {
        top = std::max(top, foot - height);
    }
    // 40 % of the samples in 0.1 kg: a density of 4 a kg; the bell's top: 1 / (0.1 sqrt(2 pi)).
    CHECK(bins[2].number("height") / top ==
          Approx(4 * 0.1 * std::sqrt(2 * std::numbers::pi)).epsilon(1e-3));
    CHECK_THAT(picture, Contains("3 to 3.1: 4 samples") || Contains("3.000 to 3.100: 4 samples"));
    CHECK(drawn_text(picture, "10 samples").word("class") == "label");
}

TEST_CASE("sources have bars by their share of the variance, small ones together") {
    ScatteredNumber number = scattered_by_hand();
    number.sources.push_back({"tiny", 0.001, 0.0001, 0.1, {}});
    const std::string picture = sources_picture(number, "v");
    const auto bars = drawn(picture, "rect", "up");
    REQUIRE(bars.size() == 2);
    CHECK(bars[0].number("width") / bars[1].number("width") == Approx(64.0 / 36).epsilon(1e-3));
    CHECK(drawn_text(picture, "64.0 %").number("x") >
          bars[0].number("x") + bars[0].number("width"));
    CHECK_THAT(picture, Contains(">0.100 \u2192 0.0750<") && Contains(">84.0 % \u2192 90.0 %<") &&
                            Contains("core.thickness_mm 64.0 %; layer.angle 36.0 %.") &&
                            !Contains("tiny") && !Contains("all others"));
    number.sources.clear();
    CHECK(sources_picture(number, "v").empty());
}
