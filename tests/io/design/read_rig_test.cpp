// A rig's file, each key with a value of its own.
#include "io/design/read_rig.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Rig rig_of_text(const std::string& text) {
    return read_rig_text(text, "rig.toml", demo());
}

std::string rig_complaint(const std::string& text) {
    return complaint_of([&] { (void)rig_of_text(text); });
}

} // namespace

TEST_CASE("noise and bias are in the unit of their number, or of the design value's path") {
    const Rig rig = rig_of_text("[[reading]]\nnumber = \"mass\"\nsd = 0.003\nbias_sd = 0.001\n"
                                "[[reading]]\nnumber = \"nose-twist\"\nsd = 0.05\n"
                                "[[reading]]\nnumber = \"thickness@-270\"\nbias_sd = 0.02\n"
                                "[[reading]]\nnumber = \"core.thickness_mm[3]\"\nsd = 0.04\n");
    REQUIRE(rig.readings.size() == 4);
    CHECK(rig.file == "rig.toml");
    CHECK(*rig.readings[0].sd == Approx(0.003));
    CHECK(rig.readings[0].bias_sd == Approx(0.001));
    CHECK(rig.readings[0].place == "rig.toml:1:1");
    CHECK(*rig.readings[1].sd == Approx(0.05 * 180 / std::numbers::pi)); // N m/deg in N m/rad
    CHECK(rig.readings[1].bias_sd == 0);
    CHECK_FALSE(rig.readings[2].sd);
    CHECK(rig.readings[2].bias_sd == Approx(2e-5));
    CHECK(*rig.readings[3].sd == Approx(4e-5));
    CHECK(rig_reading(rig, "nose-twist") == &rig.readings[1]);
    CHECK(rig_reading(rig, "tail-twist") == nullptr);
}

TEST_CASE("values that may have moved are paths or patterns of them; groups of scatter are names") {
    const Rig rig = rig_of_text("[[free]]\nvalue = \"layer.base.thickness_mm\"\n"
                                "[[free]]\nvalue = \"core.thickness_mm\"\n"
                                "[[scatter]]\ngroup = \"core.thickness_mm\"\n");
    REQUIRE(rig.free.size() == 2);
    CHECK(rig.free[0].paths == std::vector<std::string>{"layer.base.thickness_mm"});
    CHECK(rig.free[0].place == "rig.toml:1:1");
    REQUIRE(rig.free[1].paths.size() == 7); // the stations
    CHECK(rig.free[1].paths[6] == "core.thickness_mm[6]");
    REQUIRE(rig.scatter.size() == 1);
    CHECK(rig.scatter[0].group == "core.thickness_mm");
    CHECK(rig.scatter[0].place == "rig.toml:5:1");
    CHECK(rig_of_text("format = 1\n").readings.empty());
}

TEST_CASE("names that the board does not have, no noise at all and a name twice are refused") {
    CHECK_THAT(rig_complaint("[[reading]]\nnumber = \"nose-twst\"\nsd = 1\n"),
               Contains("rig.toml:2:10") && Contains("did you mean 'nose-twist'?") &&
                   Contains("or the path of a design value measured itself"));
    CHECK_THAT(rig_complaint("[[reading]]\nnumber = \"mass\"\nsd = 0\n"),
               Contains("rig.toml:3:6: reading[0].sd: found 0; accepted: one standard deviation, "
                        "above 0"));
    CHECK_THAT(rig_complaint("[[reading]]\nnumber = \"mass\"\nbias_sd = -1\n"),
               Contains("reading[0].bias_sd: found -1"));
    CHECK_THAT(rig_complaint("[[reading]]\nnumber = \"mass\"\nsd = 1\n[[reading]]\nnumber = "
                             "\"mass\"\nsd = 2\n"),
               Contains("rig.toml:5:10") && Contains("found \"mass\" a second time"));
    CHECK_THAT(rig_complaint("[[free]]\nvalue = \"layer.bose.thickness_mm\"\n"),
               Contains("rig.toml:2:9") && Contains("'layer.base.thickness_mm'"));
    CHECK_THAT(rig_complaint("[[reading]]\nnumber = \"mass\"\nsdd = 1\n"), Contains("unknown key"));
    CHECK_THAT(rig_complaint("format = 2\n"), Contains("format"));
}
