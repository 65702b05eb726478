#include <algorithm>
#include <sstream>

#include <catch2/catch.hpp>

#include "io/report/edge_ridges.hpp"

using namespace vrid;

namespace {

// What is highest on the page of the curve's points.
double top_of_curve(const std::string& markup) {
    const auto at = markup.find("<polyline");
    REQUIRE(at != std::string::npos);
    const auto begin = markup.find("points=\"", at) + 8;
    std::string points = markup.substr(begin, markup.find('"', begin) - begin);
    std::replace(points.begin(), points.end(), ',', ' ');
    std::istringstream in(points);
    double x = 0;
    double y = 0;
    double top = 1e9;
    while (in >> x >> y) {
        top = std::min(top, y);
    }
    return top;
}

} // namespace

TEST_CASE("a force that is largest where the board is widest stays below the picture's heading") {
    EdgeState state;
    state.angle_deg = 45;
    state.force_N = 800;
    for (int i = 0; i <= 40; ++i) { // the ends are wide and carry all
        const double x = -500 + 25 * i;
        state.x.push_back(x);
        state.y.push_back(125 + 25 * x * x / 250000);
        state.force_line.push_back(x * x / 250000);
    }
    const Ridges ridges{"left edge", {45}, {800}, {&state}};
    const EdgePlaces places{
        {-500, 500, 60, 860}, {}, {}, {{-500, 150}, {-500, -150}, {500, -150}, {500, 150}}};
    const std::string markup = edge_plan_picture(ridges, places, "p");
    CHECK(top_of_curve(markup) >= 34); // the heading stands on 30 px
}
