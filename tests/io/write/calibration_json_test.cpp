#include "io/write/calibration_json.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a calibration is the same there and back; what was not finite is null and no number") {
    CalibrationFindings found;
    found.values = {{"core.scale", "", 1, 1.02, 0.004, 0.01, false},
                    {"layer.base.angle_deg", "deg", 0, 1.5, 0.2, {}, true}};
    found.correlation = {{1, -0.95}, {-0.95, 1}};
    found.readings = {
        {"mass", "kg", 4, 0.1, {4.2, 0.001, "kg"}, {std::nan(""), 0, "kg"}, -0.5, true}};
    found.indistinct = {{"core.scale", "layer.base.angle_deg", 0.9991}};
    found.untouched = {"core.scale"};
    found.open = std::vector<LeftOpen>{{{{"core.scale", "", 0.01}}, 0.9, 0.02}};
    found.misfit = 2.5;
    found.solves = 7;

    const std::string text = json_text(written(found));
    const CalibrationFindings back = read_calibration(text, "calibration.json");
    CHECK(json_text(written(back)) == text);
    CHECK(std::isnan(back.readings[0].after.value));
    CHECK_FALSE(back.values[1].prior_sd);
    CHECK(back.values[1].at_limit);
    CHECK(back.correlation[0][1] == -0.95);
    CHECK(back.open.value[0].step[0].change == 0.01);
}
