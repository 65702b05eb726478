// [edge] of a goal, each key with a value of its own.
#include "io/read/read_edge_condition.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "io/design/read_goal.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Goal goal_with_edge(const std::string& keys) {
    return read_goal_text({"[[target]]\nnumber = \"edge.peak\"\nmax = 9\n"
                           "[[free]]\nvalue = \"layer.base.thickness_mm\"\nmin = 0.5\nmax = 3\n"
                           "[edge]\n" +
                               keys,
                           "goal.toml", ""},
                          demo());
}

EdgeCondition condition_of(const std::string& keys) {
    return *goal_with_edge(keys).edge;
}

std::string refused_edge(const std::string& keys) {
    return complaint_of([&] { (void)goal_with_edge(keys); });
}

} // namespace

TEST_CASE("an edge condition is 45 deg, 800 N, packed snow, half on each foot, left, unless told") {
    const EdgeCondition plain = condition_of("");
    CHECK(plain.tilt == Approx(std::numbers::pi / 4));
    CHECK(plain.force == 800);
    CHECK(plain.hardness == 0.5e9); // packed: 0.5 N/mm3
    CHECK(plain.share == 0.5);
    CHECK(plain.side == Side::left);
    CHECK(plain.law == SnowLaw::volume);
    CHECK_FALSE(plain.bent);
    const EdgeCondition told = condition_of("angle_deg = 60\nforce_N = 650\nhardness = 5\n"
                                            "share = 0.4\nside = \"right\"\nbent = true\n");
    CHECK(told.tilt == Approx(std::numbers::pi / 3));
    CHECK(told.force == 650);
    CHECK(told.hardness == 5e9);
    CHECK(told.share == 0.4);
    CHECK(told.side == Side::right);
    CHECK(told.bent);
}

TEST_CASE("hardness is in N/mm3 or by name with the law of volume, in N/mm2 with the linear one") {
    CHECK(condition_of("hardness = \"ice\"\n").hardness == 50e9);
    CHECK(condition_of("law = \"volume\"\nhardness = \"soft\"\n").hardness == 0.05e9);
    const EdgeCondition linear = condition_of("law = \"linear\"\n");
    CHECK(linear.law == SnowLaw::linear);
    CHECK(linear.hardness == 10e6);
    CHECK(condition_of("law = \"linear\"\nhardness = 3\n").hardness == 3e6);
    CHECK_THAT(
        refused_edge("law = \"linear\"\nhardness = \"ice\"\n"),
        Contains(
            "goal.toml:10:12: edge.hardness: found the text \"ice\"; accepted: a number above 0 to "
            "1000000 in N/mm2"));
    CHECK_THAT(refused_edge("hardness = \"icy\"\n"),
               Contains("in N/mm3, or one of soft, packed, hard, ice; did you mean 'ice'?"));
    CHECK_THAT(refused_edge("hardness = 0\n"), Contains("edge.hardness: found 0; accepted:"));
}

TEST_CASE(
    "a word that is neither choice, an angle that stands on no edge, a foreign key: refused") {
    CHECK_THAT(refused_edge("side = \"both\"\n"),
               Contains("edge.side: found the text \"both\"; accepted: \"left\" or \"right\""));
    CHECK_THAT(refused_edge("angle_deg = 9\n"), Contains("accepted: a number from 10 to 80 (deg)"));
    CHECK_THAT(refused_edge("tilt_deg = 45\n"), Contains("edge.tilt_deg: unknown key"));
}
