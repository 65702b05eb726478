#include "io/design/read_bench.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Bench bench_of(const std::string& text, const MaterialLibrary& library) {
    return read_bench_text({text, "bench.toml", ""}, demo(), library);
}

std::string complaint(const std::string& text, const MaterialLibrary& library = shipped_library()) {
    return complaint_of([&] { (void)bench_of(text, library); });
}

const std::string twist = "[[reading]]\nnumber = \"nose-twist\"\nvalue = 3.9\nsd = 0.05\n";
const std::string core_free = "[[free]]\nvalue = \"core.thickness_mm\"\n";

} // namespace

TEST_CASE("a bench file is read into SI, with the deviations of its free values") {
    const Bench bench = bench_of(twist + R"(
[[reading]]
number = "mass"
value = 3.02
sd = 0.005

[[reading]]
number = "thickness@-270"
value = 9.4
sd = 0.05

[[reading]]
number = "free-modes mode 1"
value = 14.2
sd = 0.1

[[free]]
value = "core.thickness_mm"

[[free]]
value = "material.*.E_GPa"
min = 0.001
max = 500
)",
                                 shipped_library());
    REQUIRE(bench.readings.size() == 4);
    CHECK(bench.readings[0].value == Approx(3.9 * 180 / std::numbers::pi));
    CHECK(bench.readings[0].sd == Approx(0.05 * 180 / std::numbers::pi));
    CHECK(bench.readings[2].number.kind == NumberId::Kind::thickness);
    CHECK(bench.readings[2].number.station == -0.27);
    CHECK(bench.readings[2].value == Approx(9.4e-3));
    CHECK(bench.free[0].min == 0);
    CHECK(bench.free[0].max == Approx(0.2)); // the format's range
    CHECK(bench.free[1].max == Approx(500e9));
    REQUIRE(bench.priors.size() == bench.free[0].ids.size() + bench.free[1].ids.size());
    CHECK(bench.priors[2].sd == Approx(0.05e-3)); // [tolerance] of the demo board
    CHECK(bench.priors[3].sd == Approx(0.1e-3));
}

TEST_CASE("readings that say nothing are refused") {
    CHECK_THAT(complaint(core_free), Contains("at least one [[reading]]"));
    CHECK_THAT(complaint(twist), Contains("at least one [[free]]"));
    for (const char* sd : {"0", "-0.1"}) {
        CHECK_THAT(complaint("[[reading]]\nnumber = \"mass\"\nvalue = 3\nsd = " + std::string(sd) +
                             "\n" + core_free),
                   Contains("bench.toml:4:6") && Contains("a reading without one"));
    }
    CHECK_THAT(complaint("[[reading]]\nnumber = \"mass\"\nvalue = 3\n" + core_free),
               Contains("sd: missing"));
    CHECK_THAT(complaint("[[reading]]\nnumber = \"edge.peak\"\nvalue = 3\nsd = 1\n" + core_free),
               Contains("no bench measures"));
    CHECK_THAT(complaint("[[reading]]\nnumber = \"mas\"\nvalue = 3\nsd = 1\n" + core_free),
               Contains("did you mean 'mass'?"));
    CHECK_THAT(
        complaint(twist + core_free + "round_to = 0.05\nmax_slope = 0.1\n"),
        Contains("round_to: not accepted in a bench file: the fit estimates what was built") &&
            Contains("max_slope: not accepted in a bench file: the fit finds the slopes"));
}

TEST_CASE("fewer readings than free values need a deviation for each of these") {
    // The demo board gives one to its core, and to no angle; an empty library gives none.
    CHECK(complaint(twist + core_free, MaterialLibrary{}).empty());
    const std::string angles = "[[free]]\nvalue = \"layer.*.angle_deg\"\n";
    CHECK(complaint(twist + angles).empty());
    CHECK_THAT(complaint(twist + angles, MaterialLibrary{}),
               Contains("bench.toml:5:1") &&
                   Contains("angle_deg has no standard deviation in [tolerance]") &&
                   Contains("1 readings cannot tell"));
    const std::string one = "[[free]]\nvalue = \"layer.base.angle_deg\"\n";
    CHECK(complaint(twist + one, MaterialLibrary{}).empty());
    CHECK(bench_of(twist + one, MaterialLibrary{}).priors.empty());
}
