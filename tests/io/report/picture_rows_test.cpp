// Small texts and axes that pictures share.
#include "io/report/picture_rows.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("a name is cut after so many letters, however many bytes they have") {
    CHECK(clipped("ribbon", 6) == "ribbon");
    CHECK(clipped("ribbons", 6) == "ribbo\u2026");
    CHECK(clipped("\u00e4\u00f6\u00fc", 3) == "\u00e4\u00f6\u00fc");
    CHECK(clipped("\u00e4\u00f6\u00fcx", 3) == "\u00e4\u00f6\u2026");
}

TEST_CASE("values have four digits without zeros, shares two decimals near their ends") {
    CHECK(short_text(9) == "9");
    CHECK(short_text(0.25004) == "0.25");
    CHECK(short_text(-12345.6) == "-12350");
    CHECK(percent_text(0.9723) == "97.2 %");
    CHECK(percent_text(0.9996) == "99.96 %");
    CHECK(percent_text(0.0004) == "0.04 %");
    CHECK(percent_text(0.0006) == "0.1 %");
}

TEST_CASE("an axis over one value has room on both sides of it, in the middle of the picture") {
    const Axis wide = axis_over(2, 3, 100, 200);
    CHECK(wide.at(2) == 100);
    CHECK(wide.at(2.25) == 125);
    for (const double value : {0.0, 5.0, -1e6}) {
        const Axis axis = axis_over(value, value, 100, 200);
        CHECK(axis.high > axis.low);
        CHECK(axis.at(value) == Approx(150));
    }
}

TEST_CASE("a stem stands from zero to its value at its station, up or down") {
    const Stems stems{"Shift", "x in mm", "mm", {{-300, 2}, {0, -1}, {600, 4}}};
    const std::string picture = stems_picture(stems, "s");
    const Ruler y = ruler(picture, true);
    const Ruler x = ruler(picture, false);
    const auto lines = drawn(picture, "line", "stem");
    REQUIRE(lines.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(x.at(lines[i].number("x2")) == Approx(stems.points[i].first).margin(0.05));
        CHECK(y.at(lines[i].number("y1")) == Approx(0).margin(0.001));
        CHECK(y.at(lines[i].number("y2")) == Approx(stems.points[i].second).margin(0.001));
    }
    CHECK(drawn(picture, "circle", "up").size() == 2);
    CHECK(drawn(picture, "circle", "down").size() == 1);
    CHECK(picture.find("at each of 3 stations; x in mm. From -1.00 to 4.00 mm.") !=
          std::string::npos);
}

TEST_CASE("a number's head has its bar, and says when it is not finite") {
    CHECK(number_head("a<b", {9.5442, 0.008, "N m/deg"}) ==
          "<h3>a&lt;b = 9.544 <span class=\"bar\">&plusmn;&#8239;0.008</span> N m/deg</h3>\n");
    CHECK(number_head("x", {-1e-12, 0, "mm"}) == "<h3>x = 0.000 mm</h3>\n");
    CHECK(number_head("x", {HUGE_VAL, 0, "m"}) == "<h3>x = not finite m</h3>\n");
}
