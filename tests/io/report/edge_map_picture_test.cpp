// The map over angle, load and snow: each number stands in its own cell.
#include <catch2/catch.hpp>

#include "io/report/report.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

EdgeState mapped(double angle, double force, const std::string& snow, double peak) {
    EdgeState state;
    state.name = "edge " + std::to_string(static_cast<int>(peak));
    state.angle_deg = angle;
    state.force_N = force;
    state.snow = snow;
    state.stand = "left edge";
    if (peak > 0) {
        state.numbers["peak"] = {peak, 0.5, "N/mm"};
    } else {
        state.no_equilibrium = "it tips over";
    }
    return state;
}

// Two angles, two loads, two kinds of snow; the last one does not rest.
std::vector<EdgeState> eight_states() {
    return {mapped(45, 800, "5 N/mm3", 11),   mapped(60, 800, "5 N/mm3", 12),
            mapped(45, 1600, "5 N/mm3", 13),  mapped(60, 1600, "5 N/mm3", 14),
            mapped(45, 800, "50 N/mm3", 21),  mapped(60, 800, "50 N/mm3", 22),
            mapped(45, 1600, "50 N/mm3", 23), mapped(60, 1600, "50 N/mm3", 0)};
}

} // namespace

TEST_CASE("angles rise, loads go to the right, each snow has a panel; colours go by the number") {
    const std::vector<EdgeState> states = eight_states();
    std::vector<const EdgeState*> all;
    for (const EdgeState& state : states) {
        all.push_back(&state);
    }
    const std::string picture = edge_map_picture(all, "m");
    const auto place = [&](const std::string& text) {
        const DrawnElement one = drawn_text(picture, text);
        return std::pair(one.number("x"), one.number("y"));
    };
    CHECK(place("12.0").first == place("11.0").first);
    CHECK(place("12.0").second < place("11.0").second); // 60 deg over 45
    CHECK(place("13.0").first > place("11.0").first);
    CHECK(place("13.0").second == place("11.0").second);
    CHECK(place("21.0").first > place("13.0").first); // the next panel
    CHECK(place("60\u00b0").second == place("12.0").second);
    CHECK(place("45\u00b0").second == place("11.0").second);
    CHECK(place("800 N").first == place("11.0").first);
    CHECK(place("1600 N").first == place("13.0").first);
    CHECK(place("none").first > place("22.0").first);
    CHECK(drawn_text(picture, "11.0").word("class") == "value V0");
    CHECK(drawn_text(picture, "23.0").word("class") == "value V5");
    CHECK(drawn_text(picture, "13.0").word("class") == "value V1"); // 2 of 12, six shades
    CHECK_THAT(picture, Contains("edge 14: Peak force 14.0 +- 0.5 N/mm") &&
                            Contains("edge 0: it tips over") && Contains(">Peak force, N/mm<"));
}

TEST_CASE("the table of the edge has a row a condition and a column a number, with bars") {
    std::vector<EdgeState> states = eight_states();
    states[0].numbers["loss_nose"] = {2.5, 0, "deg"};
    const std::string table = edge_table(states);
    CHECK_THAT(table, Contains("<th scope=\"col\">condition</th><th scope=\"col\">loss nose, deg"
                               "</th><th scope=\"col\">peak, N/mm</th>"));
    CHECK_THAT(table, Contains("<th scope=\"row\">edge 11</th><td>2.500</td><td>11.0 \u00b1 0.5"));
    CHECK_THAT(table, Contains("<th scope=\"row\">edge 14</th><td></td><td>14.0 \u00b1 0.5</td>"));
    CHECK_THAT(table, Contains("edge 0: no equilibrium, it tips over</th><td></td><td></td>"));
}
