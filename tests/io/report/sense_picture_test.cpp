// Bars of a sense read back by the numbers at their axis.
#include <catch2/catch.hpp>

#include "io/report/findings.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

StepChange step_of(const std::string& to, double value, double step, double percent) {
    StepChange one;
    one.of = "nose-twist";
    one.to = to;
    one.value = value;
    one.step = step;
    one.step_unit = "mm";
    one.percent_per_step = percent;
    return one;
}

SensedNumber three_steps() {
    SensedNumber number;
    number.name = "nose-twist";
    number.quantity = Measured{BenchQuantity{9.5, 0.01, "N m/deg"}};
    number.steps = {step_of("core.thickness_mm[1]", 0.5, 0.1, 4),
                    step_of("core.thickness_mm[0]", -0.2, 0.2, -1.5),
                    step_of("layer.base.thickness_mm", 0.001, 0.1, 0.0005)};
    number.steps[0].x = 250;
    number.steps[1].x = -300;
    return number;
}

// How far a bar reaches from zero.
double length_of(const DrawnElement& bar, const Ruler& x) {
    return bar.number("width") * x.per_px;
}

} // namespace

TEST_CASE("a bar reaches from zero to what one step changes in percent; what changes nothing has "
          "none") {
    const std::string picture = sense_picture(three_steps(), "s");
    const Ruler x = ruler(picture, false);
    const auto up = drawn(picture, "rect", "up");
    const auto down = drawn(picture, "rect", "down");
    REQUIRE(up.size() == 1);
    REQUIRE(down.size() == 1);
    CHECK(length_of(up[0], x) == Approx(4).margin(0.01));
    CHECK(x.at(up[0].number("x")) == Approx(0).margin(0.01));
    CHECK(length_of(down[0], x) == Approx(1.5).margin(0.01));
    CHECK(x.at(down[0].number("x")) == Approx(-1.5).margin(0.01));
    CHECK_THAT(picture, Contains("core.thickness_mm[1] at x = 250 mm +0.1 mm: +4.00 %; "
                                 "core.thickness_mm[0] at x = -300 mm +0.2 mm: -1.50 %.") &&
                            Contains(">change of nose-twist, %<"));
}

TEST_CASE("where percent say nothing bars are in the number's unit: derivative times step") {
    SensedNumber number = three_steps();
    number.steps[2].percent_per_step = {};
    const std::string picture = sense_picture(number, "s");
    const Ruler x = ruler(picture, false);
    CHECK(length_of(drawn(picture, "rect", "up").at(0), x) == Approx(0.05).margin(1e-3));
    CHECK(length_of(drawn(picture, "rect", "down").at(0), x) == Approx(0.04).margin(1e-3));
    CHECK_THAT(picture, Contains(">change of nose-twist, N m/deg<"));
    number.steps.clear();
    CHECK(sense_picture(number, "s").empty());
}

TEST_CASE("core stations are drawn from tail to nose for 0.1 mm each, whatever their own step is") {
    const std::string picture = core_stations_picture(three_steps(), "c");
    const Ruler x = ruler(picture, false);
    const Ruler y = ruler(picture, true);
    const auto stems = drawn(picture, "line", "stem");
    REQUIRE(stems.size() == 2);
    CHECK(x.at(stems[0].number("x1")) == Approx(-300).margin(0.5));
    CHECK(y.at(stems[0].number("y2")) == Approx(-0.75).margin(0.01)); // half its step
    CHECK(x.at(stems[1].number("x1")) == Approx(250).margin(0.5));
    CHECK(y.at(stems[1].number("y2")) == Approx(4).margin(0.01));
    CHECK_THAT(picture, Contains("for +0.1 mm at each station, %"));
    SensedNumber one = three_steps();
    one.steps.erase(one.steps.begin());
    CHECK(core_stations_picture(one, "c").empty());
}
