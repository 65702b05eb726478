// A cross-section read back: to scale in both directions, looking to the nose, left (+y) on the
// left.
#include <catch2/catch.hpp>

#include "io/report/report.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

// 245 mm wide: 4 px a mm in a picture for 245 mm. Over the left half lies one layer more.
DrawnSection two_parts() {
    const DrawnLayer base{"base", "uhmwpe", 0, {0, 1.25}};
    const DrawnLayer core{"core", "poplar", 0, {1.25, 7}};
    const DrawnLayer glass{"glass", "triax", 45, {7, 7.5}};
    return {"middle", -18.5, {{{-122.5, 0}, {base, core}}, {{0, 122.5}, {base, core, glass}}}};
}

} // namespace

TEST_CASE("a section's parts have their widths, layers their heights, at one scale") {
    const std::string picture = section_picture(two_parts(), 245, {"base", "core", "glass"}, "s");
    const auto base = drawn(picture, "rect", "layer L0");
    const auto core = drawn(picture, "rect", "layer L1");
    const auto glass = drawn(picture, "rect", "layer L2");
    REQUIRE(base.size() == 3); // two parts, and the right side enlarged
    CHECK(base[0].number("width") == Approx(490));
    CHECK(base[0].number("x") == Approx(500)); // y from -122.5 to 0: the right half
    CHECK(base[1].number("x") == Approx(10));
    CHECK(base[0].number("height") == Approx(5));
    CHECK(core[0].number("height") == Approx(23));
    CHECK(core[0].number("y") + core[0].number("height") == Approx(base[0].number("y")));
    REQUIRE(glass.size() == 1); // not within 40 mm of the right rim
    CHECK(glass[0].number("x") == Approx(10));
    CHECK(glass[0].number("y") + 2 == Approx(core[1].number("y")));
    CHECK(base[2].number("height") == Approx(14 * 1.25)); // the detail
    CHECK(base[2].number("width") == Approx(14 * 40));
    CHECK_THAT(picture, Contains("glass: triax, 0.500 mm, 45.0 deg") &&
                            Contains("middle, x = -18.50 mm") &&
                            Contains("245.0 mm wide, 7.50 mm thick") && Contains(">core  5.75<"));
    CHECK(section_picture({}, 245, {}, "s").empty());
}

TEST_CASE("layers of a drawing have one colour each, by their names in order") {
    Drawing drawing;
    drawing.sections = {two_parts(), two_parts()};
    drawing.sections[1].parts[0].layers[0].name = "apron";
    CHECK(layer_names(drawing) == std::vector<std::string>{"apron", "base", "core", "glass"});
}
