// Derivatives as people read them, against rows by hand; the field file: tests/io/write/vtk.
#include "io/write/sense_report.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/plain_json.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const DesignKind sensed_core{DesignProperty::core_thickness, nullptr, DesignForm::station, 1e-4};
const DesignKind sensed_angle{DesignProperty::layer_angle, nullptr, DesignForm::value, degree};

// nose-twist of 10 N m/deg, which grows by 2 N m/deg a mm of core and falls by 0.1 a degree of
// ply; and the balance point, 5 mm, which moves by 1 mm a mm of core.
Sense two_numbers() {
    Sense sense;
    sense.board.name = "plank";
    sense.board.core.emplace().thickness = {Interpolation::smooth, {-0.3, 0.2675}, {5e-3, 7e-3}};
    DesignValue core;
    core.id = {&sensed_core, "", 1};
    core.value = 7e-3;
    DesignValue angle;
    angle.id = {&sensed_angle, "glass", 0};
    angle.value = 45 * degree;
    DesignValue hidden = angle;
    hidden.id.part = "hidden";
    sense.values = {core, angle, hidden};
    sense.shown = {true, true, false};
    BoardNumber twist;
    twist.request = {NumberId::Kind::bench_case, "nose-twist"};
    twist.quantity = {10 / degree, 0.02 / degree, Unit::twist_stiffness};
    twist.slope = Eigen::Vector3d(2e3 / degree, -0.1 / degree / degree, 1e9);
    BoardNumber place;
    place.request = {NumberId::Kind::balance_x};
    place.quantity = {5e-3, 0, Unit::length};
    place.slope = Eigen::Vector3d(1, 0, 0);
    sense.numbers.numbers = {twist, place};
    return sense;
}

} // namespace

TEST_CASE("a derivative is in bench unit per file unit, its change is a workshop step's") {
    const auto entries = entries_of(two_numbers(), 0);
    REQUIRE(entries.size() == 2); // the hidden value was not asked for
    CHECK(entries[0].value == 0); // 0.2 N m/deg a step, the other 0.1
    CHECK(entries[0].slope == Approx(2));
    CHECK(entries[0].step == Approx(0.1));
    CHECK(entries[0].percent == Approx(2));
    CHECK(entries[1].slope == Approx(-0.1));
    CHECK(entries[1].step == Approx(1));
    CHECK(entries[1].percent == Approx(-1));
    CHECK(std::isnan(entries_of(two_numbers(), 1)[0].percent)); // of a place
}

TEST_CASE(
    "rows have value, step and change in percent and in the unit; those without are left out") {
    const Sense sense = two_numbers();
    const std::string text = sense_text(sense, 10);
    CHECK(text_rows(text).front() == "plank: what a workshop step changes");
    CHECK_THAT(text, Contains("\nnose-twist = 10.00 +- 0.02 N m/deg\n"));
    CHECK(text_row(text, "core.thickness_mm[1]") ==
          "core.thickness_mm[1] at x = 267.5 mm 7.000 0.100 mm +2.00 +0.200");
    CHECK(text_row(text, "layer.glass") == "layer.glass.angle_deg 45.00 1.00 deg -1.00 -0.100");
    CHECK_THAT(text, !Contains("hidden") && !Contains("more, each smaller"));
    CHECK(text_rows_between(text, "balance_point.x", "x").back() ==
          "core.thickness_mm[1] at x = 267.5 mm 7.000 0.100 mm +0.100");
    CHECK_THAT(sense_text(sense, 1), Contains("  (1 more, each smaller; --rows N shows them)\n"));
    Sense still = sense;
    still.numbers.numbers[0].slope.setZero();
    CHECK_THAT(sense_text(still, 10), Contains("  none of the chosen values changes it\n"));
}

TEST_CASE("where lines part both sides are told, if they differ by more than a percent") {
    Sense sense = two_numbers();
    Kink kink;
    kink.number = 0;
    kink.value = sense.values[0].id;
    kink.below = 1.5e3 / degree;
    kink.above = 2.5e3 / degree;
    sense.numbers.kinks = {kink};
    CHECK_THAT(sense_text(sense, 10),
               Contains("  core.thickness_mm[1]: +1.50 a mm downwards, +2.50 upwards: "));
    const PlainJson parted = PlainJson::parse(sense_json(sense))["derivatives"][0];
    CHECK(parted["kink"] == true);
    CHECK(parted["below"].get<double>() == Approx(1.5));
    CHECK(parted["above"].get<double>() == Approx(2.5));
    sense.numbers.kinks[0].below = 1.99e3 / degree;
    sense.numbers.kinks[0].above = 2.005e3 / degree;
    CHECK_THAT(sense_text(sense, 10), !Contains("downwards"));
    sense.numbers.kinks[0].number = 1;
    CHECK_FALSE(PlainJson::parse(sense_json(sense))["derivatives"][0].contains("kink"));
}

TEST_CASE(
    "sense.json has numbers and derivatives with units, stations in mm, no percent of a place") {
    const PlainJson all = PlainJson::parse(sense_json(two_numbers()));
    CHECK(all["numbers"]["nose-twist"]["unit"] == "N m/deg");
    CHECK(all["numbers"]["balance_point.x"]["value"] == 5);
    REQUIRE(all["derivatives"].size() == 4);
    const PlainJson& core = all["derivatives"][0];
    CHECK(core["of"] == "nose-twist");
    CHECK(core["to"] == "core.thickness_mm[1]");
    CHECK(core["x"].get<double>() == Approx(267.5));
    CHECK(core["value"].get<double>() == Approx(2));
    CHECK(core["unit"] == "N m/deg per mm");
    CHECK(core["percent_per_step"].get<double>() == Approx(2));
    CHECK(core["step"].get<double>() == Approx(0.1));
    CHECK(core["step_unit"] == "mm");
    CHECK(all["derivatives"][1]["to"] == "layer.glass.angle_deg");
    CHECK_FALSE(all["derivatives"][1].contains("x"));
    CHECK(all["derivatives"][2]["of"] == "balance_point.x");
    CHECK(all["derivatives"][2]["unit"] == "mm per mm");
    CHECK(all["derivatives"][2]["percent_per_step"].is_null());
}
