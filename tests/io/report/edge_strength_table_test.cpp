// Strength on the edge as a table, against rows written by hand.
#include <cmath>

#include <catch2/catch.hpp>

#include "io/report/strength_pictures.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

FoundIndex index_by_hand(double index) {
    FoundIndex place;
    place.x_mm = 318;
    place.y_mm = -40.4;
    place.layer = "<glass>";
    place.ply_deg = 45;
    place.mode = "crack across";
    place.index = index;
    place.error = 0.0123;
    return place;
}

FoundEdgeStrength one_edge() {
    FoundEdgeStrength one;
    one.name = "edge 60 deg";
    one.first = index_by_hand(0.8165);
    return one;
}

} // namespace

TEST_CASE("a place's row has index, bar, place, ply, mode and the load at which it gives") {
    FoundEdgeStrength one = one_edge();
    one.to_failure.emplace();
    FoundEdgeFailure& first = one.to_failure->first.emplace();
    first.load.value = 2346;
    first.load.unit = "N";
    const std::string place = "<td class=\"text\">318, -40</td><td class=\"text\">&lt;glass&gt;, 45"
                              "</td><td class=\"text\">crack across</td>";
    CHECK_THAT(edge_strength_table({one}),
               Contains("<tr><th scope=\"row\">edge 60 deg</th><td>0.817</td><td>&plusmn;&#8239;"
                        "0.012</td>" +
                        place + "<td class=\"text\">2350 N</td></tr>"));
    one.first->at_clamp = one.first->at_outline = true;
    one.first->resolved = false;
    first.why_not = std::string("too soft");
    CHECK_THAT(
        edge_strength_table({one}),
        Contains("<td>0.817</td><td>not resolved</td><td class=\"text\">318, -40, at a foot, "
                 "at the outline</td>") &&
            Contains("<td class=\"text\">2350 N: too soft</td>"));
    one.first->index = std::nan("");
    CHECK_THAT(edge_strength_table({one}), Contains("<td>not known</td>"));
}

TEST_CASE(
    "below it stand the place away from the feet and the one that breaks, with its own load") {
    FoundEdgeStrength one = one_edge();
    one.away = index_by_hand(0.7);
    one.breaks = index_by_hand(0.3);
    one.to_failure.emplace();
    one.to_failure->breaks.emplace().load.value = 4000;
    one.to_failure->breaks->load.unit = "N";
    const std::string table = edge_strength_table({one});
    CHECK_THAT(table, Contains("away from feet and snow</th><td>0.700</td>"));
    CHECK_THAT(table, Contains("breaks</th><td>0.300</td>"));
    CHECK_THAT(table.substr(table.find("breaks</th>")), Contains("<td class=\"text\">4000 N</td>"));
    CHECK(table.find("4000 N") > table.find("breaks</th>"));
    FoundEdgeStrength lost = one_edge();
    lost.no_equilibrium = std::string("it tips");
    CHECK_THAT(edge_strength_table({lost}),
               Contains("no equilibrium</span>: it tips</td>") && !Contains("0.817"));
    one.before_load = true;
    CHECK_THAT(edge_strength_table({one}), Contains("over the limit before any load"));
    CHECK(edge_strength_table({}).empty());
}
