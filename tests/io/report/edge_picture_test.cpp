// Force and angle along the edge read back by the numbers at the axes.
#include <catch2/catch.hpp>

#include "io/report/edge_ridges.hpp"
#include "io/report/report.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

EdgeState pressed_edge(double angle, double force, std::vector<double> line) {
    EdgeState state;
    state.angle_deg = angle;
    state.force_N = force;
    state.x = {-500, -100, 100, 500};
    state.y = {120, 130, 130, 120};
    state.force_line = std::move(line);
    state.angle_line = {angle - 1, angle, angle - 2, angle + 1};
    return state;
}

struct OneStand {
    EdgeState light = pressed_edge(45, 800, {0, 2, 1, 0});
    EdgeState heavy = pressed_edge(45, 1600, {0, 4, 5, 0});
    Ridges ridges{"left edge", {45}, {800, 1600}, {&light, &heavy}};
    EdgePlaces places{{-600, 600, 54, 986}, {-450, 450}, {{-300, -50, -200, 50}}, {}};
};

} // namespace

TEST_CASE("a force stands at its station with the height that the axis says, its peak labelled") {
    const OneStand stand;
    const std::string picture = force_picture(stand.ridges, stand.places, "f");
    const Ruler y = ruler(picture, true);
    const auto light = drawn(picture, "polyline", "curve C0").at(0).points();
    const auto heavy = drawn(picture, "polyline", "curve C1").at(0).points();
    REQUIRE(light.size() == 4);
    CHECK(light[1].first == Approx(54 + 500.0 / 1200 * 932).margin(0.01));
    CHECK(y.at(light[1].second) == Approx(2).margin(0.01));
    CHECK(y.at(light[0].second) == Approx(0).margin(0.01));
    CHECK(y.at(heavy[2].second) == Approx(5).margin(0.01));
    CHECK(drawn_text(picture, "5.00").number("x") == Approx(heavy[2].first));
    CHECK(drawn_text(picture, "2.00").number("x") == Approx(light[1].first));
    CHECK(drawn(picture, "circle", "peak").size() == 2);
    const auto foot = drawn(picture, "rect", "under-foot").at(0);
    CHECK(foot.number("x") == Approx(54 + 300.0 / 1200 * 932).margin(0.01));
    CHECK(foot.number("width") == Approx(100.0 / 1200 * 932).margin(0.01));
    CHECK(drawn(picture, "line", "contact").at(1).number("x1") ==
          Approx(54 + 1050.0 / 1200 * 932).margin(0.01));
    CHECK(drawn_text(picture, "800 N").number("x") < drawn_text(picture, "1600 N").number("x"));
    CHECK_THAT(picture, Contains("Up to 5.00 N/mm."));
}

TEST_CASE("a condition without rest is named in its band; without any force there is no picture") {
    OneStand stand;
    stand.heavy.x.clear();
    stand.heavy.force_line.clear();
    const std::string picture = force_picture(stand.ridges, stand.places, "f");
    CHECK_THAT(picture, Contains(">1600 N: no equilibrium<"));
    CHECK(drawn(picture, "polyline", "curve C1").empty());
    stand.light.force_line.assign(4, 0);
    CHECK(force_picture(stand.ridges, stand.places, "f").empty());
}

TEST_CASE("the local angle is thick where the edge holds and thin all along") {
    const OneStand stand;
    const std::string picture = angle_picture(stand.ridges, stand.places, "a");
    const Ruler y = ruler(picture, true);
    const auto thin = drawn(picture, "polyline", "curve air C0").at(0).points();
    REQUIRE(thin.size() == 4);
    CHECK(y.at(thin[0].second) == Approx(44).margin(0.05));
    CHECK(y.at(thin[2].second) == Approx(43).margin(0.05));
    const auto thick = drawn(picture, "polyline", "curve held C0").at(0).points();
    REQUIRE(thick.size() == 2);
    CHECK(thick[0] == thin[1]);
    CHECK(thick[1] == thin[2]);
    CHECK(stand.ridges.at(45, 1600) == &stand.heavy);
    CHECK(stand.ridges.at(60, 1600) == nullptr);
    CHECK(force_name(1250.5) == "1250.5 N");
}
