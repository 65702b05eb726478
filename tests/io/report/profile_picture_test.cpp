// The long profile read back by the numbers at its axes.
#include "io/report/report.hpp"

#include <catch2/catch.hpp>

#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("heights stand where the axes say and are drawn twenty times too high") {
    const std::vector<Curve> curves{{"mould", {-700, 0, 650}, {8, 2, 19}},
                                    {"released", {-700, 0, 650}, {6, std::nan(""), 7}}};
    const std::string picture = profile_picture(curves, {-560, 570}, "p");
    const Ruler x = ruler(picture, false);
    const Ruler y = ruler(picture, true);
    const auto mould = drawn(picture, "polyline", "curve C0").at(0).points();
    REQUIRE(mould.size() == 3);
    CHECK(x.at(mould[0].first) == Approx(-700).margin(0.05));
    CHECK(y.at(mould[0].second) == Approx(8).margin(0.01));
    CHECK(y.at(mould[1].second) == Approx(2).margin(0.01));
    CHECK(x.at(mould[2].first) == Approx(650).margin(0.05));
    CHECK(y.at(mould[2].second) == Approx(19).margin(0.01));
    CHECK(-x.per_px / y.per_px == Approx(20).epsilon(0.002));
    CHECK(drawn(picture, "polyline", "curve C1").at(0).points().size() == 2);
    const auto contact = drawn(picture, "line", "contact");
    REQUIRE(contact.size() == 2);
    CHECK(x.at(contact[0].number("x1")) == Approx(-560).margin(0.05));
    CHECK_THAT(picture, Contains("mould, released. From 2.00 to 19.0 mm.") &&
                            !Contains("rise out of the picture"));
}

TEST_CASE("tips that would rise too far are cut, and the description says so; no heights, no "
          "picture") {
    const std::string high = profile_picture({{"mould", {-700, 700}, {0, 50}}}, {}, "p");
    CHECK_THAT(high, Contains("; the tips rise out of the picture"));
    const Ruler y = ruler(high, true);
    CHECK(y.at(30.0 + 380) < 0.1);
    CHECK(y.at(30.0) < 50);
    CHECK(profile_picture({}, {}, "p").empty());
    CHECK(profile_picture({{"mould", {5}, {1}}}, {}, "p").empty());
}
