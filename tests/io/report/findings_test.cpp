#include "io/report/findings.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/write/calibration_report.hpp"
#include "io/write/scatter_report.hpp"
#include "io/write/sense_report.hpp"
#include "mesh/board/error.hpp"

using namespace vrid;
using Catch::Contains;
using Catch::StartsWith;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++found;
    }
    return found;
}

constexpr DesignKind station{DesignProperty::core_thickness, nullptr, DesignForm::station, 1e-4};
constexpr DesignKind core_scale{DesignProperty::core_scale, nullptr, DesignForm::scale, 0.01};
constexpr DesignKind angle{DesignProperty::layer_angle, nullptr, DesignForm::value, 0.0175};

/// Two stations, one layer's angle; 8 N m/deg that grow, fall and do not move.
Sense sensed() {
    Sense sense;
    sense.board.name = "<Tarn>";
    sense.board.hash = "abc";
    sense.board.core = Core{};
    sense.board.core->thickness.x = {-0.5, 0.4575};
    sense.board.core->thickness.value = {0.006, 0.007};
    sense.values = {{{&station, "", 0}, 0.006, {}},
                    {{&station, "", 1}, 0.007, {}},
                    {{&angle, "base", 0}, 0, {}}};
    sense.shown = {true, true, true};
    BoardNumber number;
    number.request = {NumberId::Kind::mass};
    number.quantity = {4, 0, Unit::mass};
    number.slope = Eigen::Vector3d(400, -800, 0); // kg/m: 0.1 mm is 0.04 kg up, 0.08 kg down
    sense.numbers.numbers = {number};
    return sense;
}

ScatterReport scattered() {
    ScatterReport report;
    report.board.name = "Tarn";
    report.scatter.sources = {{{&station, "", 0}, {}}, {{&angle, "base", 0}, {}}};
    NumberScatter number;
    number.nominal.request = {NumberId::Kind::mass};
    number.nominal.quantity = {4, 0, Unit::mass};
    number.sd = 0.1;
    number.min = 3.8; // two deviations
    number.yield = 0.97725;
    number.shares = {{0, 0.08, 0.64, 0.072111, 0.9972}, {1, 0.06, 0.36, 0.085440, 0.9904}};
    for (const double value : {3.8, 3.9, 3.95, 4.0, 4.0, 4.05, 4.1, 4.2}) {
        number.sampled.insert(number.sampled.end(), 5, value); // enough for a histogram
    }
    number.controlled =
        ControlledSpread{{4.01, 0.002}, {0.11, 0.003}, 3.83, 4.0, 4.19, Estimate{0.97, 0.004}, 600};
    number.sampled_mean = 4;
    number.sampled_sd = 0.12;
    number.sampled_yield = 1;
    report.scatter.numbers = {number};
    report.samples.samples = 40;
    return report;
}

Calibration calibrated() {
    Calibration calibration;
    calibration.values = {{{&core_scale, "", 0}, 1, 1.02, 0.01, 0.004, false},
                          {{&angle, "base", 0}, 0, 0, {}, 0, true}};
    FittedReading good;
    good.reading.number = {NumberId::Kind::mass};
    good.reading.value = 4;
    good.reading.sd = 0.1;
    good.before = {4.2, 0, Unit::mass};
    good.after = {4.05, 0, Unit::mass};
    good.residual = -0.5;
    FittedReading bad = good;
    bad.reading.number = {NumberId::Kind::bench_case, "nose-twist"};
    bad.residual = 4.25;
    bad.fits = false;
    calibration.readings = {good, bad};
    calibration.correlation = Eigen::Matrix2d::Identity();
    return calibration;
}

/// All that must hold of every picture.
void check_picture(const std::string& picture) {
    CHECK_THAT(picture,
               Contains("role=\"img\"") && Contains("<title id=") && Contains("<desc id="));
    CHECK(picture.find("nan") == std::string::npos);
    CHECK(picture.find("inf") == std::string::npos);
}

} // namespace

TEST_CASE("what sense writes is read back, with the station of each core thickness") {
    const SenseFindings found = read_sense(sense_json(sensed()), "sense.json");
    CHECK(found.board.name == "<Tarn>");
    REQUIRE(found.numbers.size() == 1);
    const std::vector<StepChange>& steps = found.numbers[0].steps;
    REQUIRE(steps.size() == 3);
    CHECK(steps[0].to == "core.thickness_mm[1]");
    CHECK(steps[0].x.value() == Approx(457.5));
    CHECK(steps[0].change() == Approx(-0.08)); // kg for 0.1 mm
    CHECK(steps[0].percent_per_step.value() == Approx(-2));
    CHECK(steps[1].percent_per_step.value() == Approx(1));
    CHECK_FALSE(steps[2].x);
    CHECK_THAT(sense_text(sensed(), 5), Contains("core.thickness_mm[1] at x = 457.5 mm"));
}

TEST_CASE("bars of sense go to both sides of zero and leave out what does not change") {
    const SensedNumber number = read_sense(sense_json(sensed()), "").numbers[0];
    const std::string bars = sense_picture(number, "p");
    check_picture(bars);
    CHECK(count(bars, "class=\"up\"") == 1);
    CHECK(count(bars, "class=\"down\"") == 1);
    CHECK_THAT(bars, Contains(">-2.00<") && Contains(">+1.00<") && Contains(">+0.1 mm<") &&
                         Contains("at x = 457.5 mm") && !Contains("layer.base"));
    const std::string stations = core_stations_picture(number, "q");
    check_picture(stations);
    CHECK(count(stations, "<circle") == 2);
    CHECK_THAT(stations, Contains("station x in mm"));
    SensedNumber unplaced = number; // of an older sense.json
    for (StepChange& step : unplaced.steps) {
        step.x.reset();
    }
    CHECK_THAT(core_stations_picture(unplaced, "q"), Contains("station by its index"));
    CHECK(sense_picture({"mass", {4, 0, "kg"}, {}}, "p").empty());
    SensedNumber outline = number; // as the board's length: no station changes it
    for (StepChange& step : outline.steps) {
        step.value = step.to.starts_with("core") ? 0 : 1;
        step.percent_per_step = step.value;
    }
    CHECK(core_stations_picture(outline, "q").empty());
    CHECK_FALSE(sense_picture(outline, "p").empty());
}

TEST_CASE("what moves a position by rounding is no row of sense") {
    Sense sense = sensed();
    sense.numbers.numbers[0].request = {NumberId::Kind::balance_y};
    sense.numbers.numbers[0].quantity = {0, 0, Unit::length};
    sense.numbers.numbers[0].slope = Eigen::Vector3d(1e-10, -1e-10, 1e-14);
    CHECK_THAT(sense_text(sense, 5), Contains("none of the chosen values changes it"));
    sense.numbers.numbers[0].slope *= 1e3; // 1e-8 mm a step
    CHECK_THAT(sense_text(sense, 5), Contains("core.thickness_mm[1]") && !Contains("layer.base"));
}

TEST_CASE("values that change no reading together are said to change none") {
    Calibration calibration = calibrated();
    calibration.open = {{Eigen::Vector2d(0.5, 0), 0.5, 3e-16}};
    CHECK_THAT(calibration_text({}, calibration),
               Contains("all together, change no reading; only their tolerances"));
    calibration.open[0].largest_effect = 0.087;
    CHECK_THAT(calibration_text({}, calibration), Contains("no reading by more than 0.087 of its"));
}

TEST_CASE("where to add width is read back in percent and drawn outside where a number rises") {
    Sense sense = sensed();
    sense.board.planform = rectangle_planform(1, 0.2);
    OutlineDensity& outline = sense.numbers.outline;
    outline.at.resize(2, 4);
    outline.at << -0.5, 0.5, 0.5, -0.5, -0.1, -0.1, 0.1, 0.1;
    outline.outward = outline.at.colwise().normalized();
    outline.length = Eigen::Vector4d::Constant(0.6);
    outline.vertices = {0, 1, 2, 3};
    outline.density = Eigen::Vector4d(40, 40, -80, 40);            // kg/m2 of 4 kg
    CHECK(sense_json(sense).find("outline") == std::string::npos); // not asked for
    outline.numbers = {0};
    const SenseFindings found = read_sense(sense_json(sense), "sense.json");
    REQUIRE(found.outline);
    CHECK(found.outline->at[2] == std::pair<double, double>{500, 100});
    const std::vector<double> widening = found.outline->widening(found.numbers[0]);
    REQUIRE(widening.size() == 4);
    CHECK(widening[0] == Approx(0.1)); // 40 * 1 mm * 100 mm = 4 g of 4 kg
    CHECK(widening[2] == Approx(-0.2));
    const std::string picture = widening_picture(*found.outline, found.numbers[0], "w");
    check_picture(picture);
    CHECK(count(picture, "class=\"up\"") == 2); // one run around, cut where the list begins
    CHECK(count(picture, "class=\"down\"") == 1);
    CHECK_THAT(picture, Contains("-0.200 % for 1 mm over 100 mm, is at x = 500, y = 100 mm"));
    CHECK_THAT(sense_section(found), Contains("Where to add width"));
    outline.numbers.clear();
    CHECK(widening_picture({}, found.numbers[0], "w").empty());
}

TEST_CASE("what scatter writes is read back, its samples as a histogram that holds them all") {
    const ScatterFindings found = read_scatter(scatter_json(scattered()), "scatter.json");
    REQUIRE(found.numbers.size() == 1);
    const ScatteredNumber& number = found.numbers[0];
    CHECK(number.sd == Approx(0.1));
    CHECK(number.min.value() == Approx(3.8));
    CHECK_FALSE(number.max);
    double all = 0;
    for (const double bin : number.histogram().counts) {
        all += bin;
    }
    CHECK(all == 40);
    REQUIRE(number.controlled);
    CHECK(number.controlled->sd == Approx(0.11));
    CHECK(number.controlled->sd_error == Approx(0.003));
    CHECK(number.controlled->yield_error.value() == Approx(0.004));
    CHECK_THAT(yield_words(number), Contains("Corrected by solved samples 97.0 % are, give or "
                                             "take 0.40 %"));
    CHECK(number.histogram().from == Approx(3.8));
    CHECK(number.histogram().from +
              number.histogram().width * static_cast<double>(number.histogram().counts.size()) ==
          Approx(4.2));
}

TEST_CASE("the bell shows its limit, and the yield is said in words") {
    const ScatteredNumber number = read_scatter(scatter_json(scattered()), "").numbers[0];
    const std::string picture = bell_picture(number, "b");
    check_picture(picture);
    CHECK(count(picture, "class=\"limit\"") == 1);
    CHECK(count(picture, "class=\"hist\"") == number.histogram().counts.size() + 1); // and its key
    CHECK_THAT(picture, Contains(">min 3.8<"));
    CHECK_THAT(yield_words(number), Contains("97.7 % are above 3.8 kg") &&
                                        Contains("about 1 board in 44 is outside")); // 1 / 0.02275
    const std::string sources = sources_picture(number, "s");
    check_picture(sources);
    CHECK_THAT(sources, Contains(">64.0 %<") && Contains("97.7 % \u2192 99.0 %"));
    ScatteredNumber still = number;
    still.sd = 0;
    CHECK(bell_picture(still, "b").empty());
}

TEST_CASE("a reading that does not fit differs by word and shape, a value at its limit too") {
    const CalibrationFindings found =
        read_calibration(calibration_json(Board{}, calibrated()), "calibration.json");
    REQUIRE(found.readings.size() == 2);
    const std::string readings = readings_picture(found.readings, "r");
    check_picture(readings);
    CHECK(count(readings, "<polygon") == 1);
    CHECK_THAT(readings, Contains("does not fit, 4.3") || Contains("does not fit, 4.2"));
    CHECK_THAT(readings, Contains("fits, 0.5"));
    const std::string values = values_picture(found.values, "v");
    check_picture(values);
    CHECK_THAT(values, Contains("at its limit") && Contains("(open)") && Contains("1.020"));
    CHECK_THAT(calibration_section(found), Contains("The reading of nose-twist does not fit"));
}

TEST_CASE("a reading far off before the fit leaves room for what came after") {
    CalibratedReading reading{"mass", "kg", 4, 0.1, {40, 0, "kg"}, {4.1, 0, "kg"}, 1, true};
    const std::string picture = readings_picture({reading}, "r");
    CHECK(count(picture, "<polygon") == 1); // an arrow
    CHECK_THAT(picture, Contains(">360<")); // (40 - 4) / 0.1
}

TEST_CASE("a damaged or a foreign document is refused with its name and reason") {
    const auto refused = [](const auto& read, const std::string& text, const std::string& why) {
        CAPTURE(text);
        try {
            read(text, "a/x.json");
            FAIL("accepted");
        } catch (const InputError& wrong) {
            CHECK_THAT(wrong.what(), Contains("a/x.json: ") && Contains(why));
        }
    };
    const std::string sense = sense_json(sensed());
    const std::string scatter = scatter_json(scattered());
    refused(read_sense, "", "damaged");
    refused(read_sense, sense.substr(0, sense.size() / 2), "damaged");
    refused(read_sense, "[1]", "'derivatives' is missing");
    refused(read_sense, scatter, "'derivatives' is missing");
    refused(read_scatter, sense, "'samples' is missing");
    refused(read_calibration, sense, "'readings' is missing");
    const auto changed = [](std::string text, const std::string& from, const std::string& to) {
        REQUIRE(text.find(from) != std::string::npos);
        return text.replace(text.find(from), from.size(), to);
    };
    refused(read_sense, changed(sense, "\"format\": 1", "\"format\": 2"), "found format 2");
    refused(read_sense, changed(sense, "\"of\": \"mass\"", "\"of\": \"weight\""), "'weight'");
    refused(read_sense, changed(sense, "\"step\": ", "\"step\": -"), "no step");
    refused(read_scatter, changed(scatter, "\"sd\": ", "\"sd\": -"), "accepted is 0 or more");
    refused(read_scatter, changed(scatter, "\"sd\": ", "\"sd\": {}, \"was\": "), "damaged");
    refused(read_scatter, changed(scatter, "\"width\": ", "\"width\": -"), "width above 0");
    refused(read_scatter, changed(scatter, "\"p95\": ", "\"p95\": 1e200, \"was\": "), "'p95'");
}

TEST_CASE("a reading whose number was not finite keeps its row and has no mark") {
    const double none = std::nan("");
    CalibratedReading reading{"mass", "kg", 4, 0.1, {none, 0, "kg"}, {none, 0, "kg"}, none, false};
    const std::string picture = readings_picture({reading}, "r");
    CHECK(count(picture, "<polygon") == 0);
    CHECK(picture.find("=\"nan") == std::string::npos);
    CHECK_THAT(picture, Contains("does not fit"));
}

TEST_CASE("the page says when findings are of another state of the board") {
    Findings findings;
    findings.sense = read_sense(sense_json(sensed()), "");
    CHECK_THAT(findings_html(findings, "other"), Contains("Another state of the board"));
    CHECK_THAT(findings_html(findings, "abc"), !Contains("Another state of the board"));
    const std::string page = report_html({"t", "vrid", {}, false, findings, ""});
    CHECK_THAT(page, Contains("href=\"#sense\"") && Contains("&lt;Tarn&gt;") &&
                         !Contains("<Tarn>") && !Contains("id=\"overview\""));
}

TEST_CASE("a clipped text keeps whole letters") {
    CHECK(clipped("abc", 3) == "abc");
    CHECK(clipped("abcd", 3) == "ab\u2026");
    CHECK(clipped("\u00e4\u00f6\u00fc\u00df", 3) == "\u00e4\u00f6\u2026");
}

TEST_CASE("findings of other states of the board are named; the first speaks for a page of them") {
    Findings found;
    found.sense.emplace().board.hash = "a";
    found.scatter.emplace().board.hash = "b";
    found.lot.emplace().board.hash = "c";
    CHECK_THAT(other_states(found, ""), StartsWith("scatter.json and lot.json are of another"));
    CHECK_THAT(other_states(found, "b"), StartsWith("sense.json and lot.json are of another"));
    found.lot->board.hash = found.scatter->board.hash = "a";
    CHECK(other_states(found, "a").empty());
    CHECK_THAT(other_states(found, "z"), StartsWith("sense.json, scatter.json and lot.json are"));
    CHECK(other_states({}, "z").empty());
}
