// Outlines of a family over each other, read back by the numbers at the axis.
#include <catch2/catch.hpp>

#include "io/report/findings.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

FoundSize size_by_hand(const std::string& name, double tail, double nose, double half_width) {
    FoundSize size;
    size.name = name;
    size.drawing.value.outline = {
        {tail, -half_width}, {nose, -half_width}, {nose, half_width}, {tail, half_width}};
    size.figures["running_length"] = {0.75 * (nose - tail), 0, "mm"};
    return size;
}

} // namespace

TEST_CASE("sizes lie over each other at one scale, each with its contact lines beside it") {
    const std::string picture = sizes_picture(
        {size_by_hand("150", -400, 400, 100), size_by_hand("160", -500, 432, 120)}, "s");
    const Ruler x = ruler(picture, false);
    const auto small = drawn(picture, "polygon", "curve C0").at(0).points();
    const auto large = drawn(picture, "polygon", "curve C1").at(0).points();
    CHECK(x.at(small[0].first) == Approx(-400).margin(0.02));
    CHECK(x.at(large[0].first) == Approx(-500).margin(0.02));
    CHECK(x.at(large[1].first) == Approx(432).margin(0.02));
    CHECK(large[0].second - large[3].second == Approx(240)); // 932 mm on 932 px
    CHECK(small[0].second - small[3].second == Approx(200));
    CHECK(drawn(picture, "line", "axis").at(0).number("y1") ==
          Approx((large[0].second + large[3].second) / 2));
    std::vector<double> contact;
    for (const DrawnElement& line : drawn(picture, "line", "curve C0")) {
        if (line.number("x1") == line.number("x2")) { // not the key's
            contact.push_back(x.at(line.number("x1")));
        }
    }
    REQUIRE(contact.size() == 4);
    CHECK(contact[0] == Approx(-300).margin(0.02));
    CHECK(contact[3] == Approx(300).margin(0.02));
    CHECK(drawn_text(picture, "150").number("x") < drawn_text(picture, "160").number("x"));
    CHECK_THAT(picture, Contains("contact lines: 150, 160."));
    CHECK(sizes_picture({}, "s").empty());
}
