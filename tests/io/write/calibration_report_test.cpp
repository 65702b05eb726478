// The printed and written calibration, against rows by hand.
#include "io/write/calibration_report.hpp"

#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/plain_json.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const DesignKind fitted_angle{DesignProperty::layer_angle};
const DesignKind fitted_fraction{DesignProperty::fibre_fraction};

Calibration two_values() {
    Calibration found;
    found.values = {{{&fitted_angle, "glass", 0}, 45 * degree, 47.5 * degree, 2 * degree, degree},
                    {{&fitted_fraction, "triax", 0}, 0.48, 0.55, {}, 0.01, true}};
    FittedReading twist;
    twist.reading.number = {NumberId::Kind::bench_case, "nose-twist"};
    twist.reading.value = 9.5 / degree; // 9.5 N m/deg
    twist.reading.sd = 0.05 / degree;
    twist.before = {9 / degree, 0.01 / degree, Unit::twist_stiffness};
    twist.after = {9.52 / degree, 0.01 / degree, Unit::twist_stiffness};
    twist.residual = -0.44;
    FittedReading mass = twist;
    mass.reading.number = {NumberId::Kind::mass};
    mass.reading.value = 3.2;
    mass.reading.sd = 0.003;
    mass.before = {3.1, 0, Unit::mass};
    mass.after = {3.15, 0, Unit::mass};
    mass.residual = 4.56;
    mass.fits = false;
    found.readings = {twist, mass};
    found.correlation = Eigen::MatrixXd{{1, -0.95}, {-0.95, 1}};
    found.misfit = 21.5;
    found.solves = 4;
    return found;
}

Board calibrated_plank() {
    Board board;
    board.name = "plank";
    board.hash = "0123abcd";
    return board;
}

} // namespace

TEST_CASE("fitted values and readings stand before and after, each in its unit") {
    const std::string text = calibration_text(calibrated_plank(), two_values());
    CHECK(text_rows(text).front() == "plank: fitted to 2 readings");
    CHECK(text_row(text, "layer.glass") == "layer.glass.angle_deg deg 45.000 2.0 47.500 1.0");
    CHECK(text_row(text, "fabric.triax") ==
          "fabric.triax.fibre_volume_fraction 0.48000 open 0.55000 at its limit");
    CHECK(text_row(text, "nose-twist") == "nose-twist N m/deg 9.5000 0.050 9.0000 9.5200 -0.4");
    CHECK(text_row(text, "mass") == "mass kg 3.2000 0.0030 3.1000 3.1500 4.6 does not fit");
}

TEST_CASE("doubts: values that go together, readings that do not fit, the worst first") {
    Calibration found = two_values();
    CHECK_THAT(calibration_text(calibrated_plank(), found),
               Contains("note: layer.glass.angle_deg and fabric.triax.fibre_volume_fraction are "
                        "correlated, -0.95\n") &&
                   Contains("warning: the reading of mass is 4.6 standard deviations above what "
                            "the board can give\n") &&
                   !Contains("One wrong reading"));
    found.correlation(0, 1) = found.correlation(1, 0) = 0.9;
    found.indistinct = {{0, 1, 0.999}};
    found.untouched = {1};
    found.readings[0].fits = false;
    found.readings[0].residual = -5;
    const std::string text = calibration_text(calibrated_plank(), found);
    CHECK_THAT(text, !Contains("are correlated"));
    CHECK_THAT(text, Contains("cannot tell layer.glass.angle_deg and "
                              "fabric.triax.fibre_volume_fraction apart"));
    CHECK_THAT(text, Contains("say almost nothing about fabric.triax.fibre_volume_fraction\n"));
    CHECK_THAT(text, Contains("nose-twist is 5.0 standard deviations below") &&
                         Contains("One wrong reading spoils the fit"));
    CHECK(text.find("reading of nose-twist") < text.find("reading of mass"));
}

TEST_CASE("an open direction is told by what its values change, in their units") {
    Calibration found = two_values();
    found.values[1].prior_sd = 0.02;
    OpenDirection open;
    open.step = Eigen::Vector2d(1.5, -0.5); // in their deviations
    open.largest_effect = 0.123;
    open.sd_left = 0.97;
    found.open = {open};
    CHECK_THAT(calibration_text(calibrated_plank(), found),
               Contains("warning: left open: layer.glass.angle_deg +3.0 deg, "
                        "fabric.triax.fibre_volume_fraction -0.010, all together, change no "
                        "reading by more than 0.12 of its sd"));
    const PlainJson all = PlainJson::parse(calibration_json(calibrated_plank(), found));
    const PlainJson& one = all["open"][0];
    CHECK(one["sd_left"] == 0.97);
    CHECK(one["largest_effect"] == 0.123);
    CHECK(one["step"][0]["path"] == "layer.glass.angle_deg");
    CHECK(one["step"][0]["change"].get<double>() == Approx(3));
    CHECK(one["step"][1]["change"].get<double>() == Approx(-0.01));
}

TEST_CASE("calibration.json has values, readings and correlations in the order of the bench") {
    const PlainJson all = PlainJson::parse(calibration_json(calibrated_plank(), two_values()));
    CHECK(all["board"]["name"] == "plank");
    const PlainJson& angle = all["values"][0];
    CHECK(angle["path"] == "layer.glass.angle_deg");
    CHECK(angle["unit"] == "deg");
    CHECK(angle["before"].get<double>() == Approx(45));
    CHECK(angle["after"].get<double>() == Approx(47.5));
    CHECK(angle["sd"].get<double>() == Approx(1));
    CHECK(angle["prior_sd"].get<double>() == Approx(2));
    CHECK(angle["at_limit"] == false);
    CHECK(all["values"][1]["prior_sd"].is_null());
    CHECK(all["values"][1]["at_limit"] == true);
    const PlainJson& twist = all["readings"][0];
    CHECK(twist["number"] == "nose-twist");
    CHECK(twist["value"].get<double>() == Approx(9.5));
    CHECK(twist["sd"].get<double>() == Approx(0.05));
    CHECK(twist["before"]["value"].get<double>() == Approx(9));
    CHECK(twist["after"]["value"].get<double>() == Approx(9.52));
    CHECK(twist["residual"] == -0.44);
    CHECK(all["readings"][1]["fits"] == false);
    CHECK(all["correlation"] == PlainJson{{1, -0.95}, {-0.95, 1}});
    CHECK(all["misfit"] == 21.5);
    CHECK(all["solves"] == 4);
}
