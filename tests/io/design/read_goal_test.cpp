#include "io/design/read_goal.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "io/write/design_path.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Goal goal_of(const std::string& text, const std::string& folder = "") {
    return read_goal_text({text, "goal.toml", folder}, demo());
}

std::string goal_complaint(const std::string& text) {
    return complaint_of([&] { (void)goal_of(text); });
}

const std::string free_core =
    "[[free]]\nvalue = \"core.thickness_mm\"\nmin = 1.5\nmax = 9.5\n"; // stations 1.8 to 7.1
const std::string goal_twist = "[[target]]\nnumber = \"nose-twist\"\n";

} // namespace

TEST_CASE("a goal file is read into SI") {
    const TestFolder folder("goal");
    (void)folder.write("other.toml", "x");
    const Goal goal = goal_of(goal_twist + R"(percent = 8
within_percent = 0.2

[[target]]
number = "centre-flex"
value = 12.5

[[target]]
number = "EI@-270"
min = 100
max = 150

[[target]]
number = "balance_point.x"
value = -12
within_mm = 2

[[target]]
number = "tail-twist"
same_as = "sub/../other.toml"

[[free]]
value = "core.thickness_mm"
min = 1.5
max = 9.5
max_slope = 0.03
round_to = 0.05

[[free]]
value = "layer.*.angle_deg"
min = -20
max = 40

[objective]
least = "mass"

[edge]
angle_deg = 60
hardness = "ice"
side = "right"
)",
                              folder.path());
    REQUIRE(goal.targets.size() == 5);
    CHECK(goal.targets[0].kind == Target::Kind::percent);
    CHECK(goal.targets[0].wanted == 0.08);
    CHECK(goal.targets[0].within == Approx(0.002).epsilon(1e-14));
    CHECK(goal.targets[0].place == "goal.toml:1:1");
    CHECK(goal.targets[1].wanted == Approx(12500)); // N/mm
    CHECK(goal.targets[1].within == 0.005);
    CHECK(goal.targets[2].kind == Target::Kind::range);
    CHECK(goal.targets[2].max == 150);
    CHECK(goal.targets[2].within == 0);
    CHECK(goal.targets[3].wanted == Approx(-0.012));
    CHECK(goal.targets[3].within == Approx(0.002));
    CHECK(goal.targets[3].within_is_length);
    CHECK(goal.targets[4].same_as == folder.path() + "/other.toml");
    REQUIRE(goal.free.size() == 2);
    CHECK(goal.free[0].ids.size() == 7);
    CHECK(path_of(goal.free[0].ids[6]) == "core.thickness_mm[6]");
    CHECK(goal.free[0].min == Approx(1.5e-3));
    CHECK(*goal.free[0].max_slope == 0.03);
    CHECK(*goal.free[0].round_to == Approx(0.05e-3));
    CHECK(goal.free[1].ids.size() == demo().layers.size());
    CHECK(goal.free[1].max == Approx(40 * std::numbers::pi / 180));
    CHECK(goal.least == Least::mass);
    CHECK(goal.edge->tilt == Approx(std::numbers::pi / 3));
    CHECK(goal.edge->force == 800);
    CHECK(goal.edge->hardness == Approx(50e9));
    CHECK(goal.edge->side == Side::right);
}

TEST_CASE("an edge target without a condition stands at 45 degrees on packed snow") {
    CHECK_FALSE(goal_of(goal_twist + "percent = 1\n" + free_core).edge.has_value());
    const Goal goal = goal_of("[[target]]\nnumber = \"edge.loss_nose\"\nmax = 0.5\n" + free_core);
    CHECK(goal.edge->tilt == Approx(std::numbers::pi / 4));
    CHECK(goal.edge->hardness == Approx(0.5e9));
    CHECK(goal.edge->share == 0.5);
    CHECK(*goal.targets[0].max == Approx(0.5 * std::numbers::pi / 180));
    CHECK(goal.least == Least::change);
    const Goal linear =
        goal_of(goal_twist + "percent = 1\n" + free_core + "[edge]\nlaw = \"linear\"\n");
    CHECK(linear.edge->hardness == Approx(10e6)); // N/mm2
    CHECK_FALSE(linear.edge->bent);
    CHECK(goal_of(goal_twist + "percent = 1\n" + free_core + "[edge]\nbent = true\n").edge->bent);
}

TEST_CASE("all problems of a goal file are told at once with their places") {
    const std::string all = goal_complaint(
        "[[target]]\nnumber = \"nose-twst\"\npercent = 8\n" + goal_twist +
        "percent = 3\nvalue = 4\n" + "[[free]]\nvalue = \"core.thicknes_mm\"\nmin = 2\nmax = 9\n" +
        "[objective]\nleast = \"effort\"\n[edge]\nhardness = \"pakced\"\n");
    CHECK_THAT(all, Contains("goal.toml:2:10") && Contains("did you mean 'nose-twist'?"));
    CHECK_THAT(all, Contains("goal.toml:4:1") && Contains("found 2 of percent, value, same_as"));
    CHECK_THAT(all, Contains("did you mean 'core.thickness_mm'?"));
    CHECK_THAT(all, Contains("\"mass\" or \"change\""));
    CHECK_THAT(all, Contains("did you mean 'packed'?"));
}

TEST_CASE("targets that no board can meet at once are refused") {
    const auto two = [](const std::string& a, const std::string& b) {
        return goal_complaint(goal_twist + a + "\n" + goal_twist + b + "\n" + free_core);
    };
    CHECK_THAT(two("min = 5", "max = 4"), Contains("goal.toml:4:1") && Contains("goal.toml:1:1"));
    CHECK_THAT(two("value = 5", "max = 4"), Contains("contradicts the target"));
    CHECK_THAT(two("percent = 5", "percent = 8"), Contains("contradicts the target"));
    CHECK(two("value = 5", "max = 5").empty());
    CHECK(two("value = 5", "value = 5.02").empty()); // windows of 0.5 % overlap
    CHECK(two("percent = 5", "max = 4").empty());    // nobody knows before it is solved
    CHECK_THAT(goal_complaint(goal_twist + "min = 5\nmax = 4\n" + free_core),
               Contains("from min up"));
}

TEST_CASE("what cannot be meant by a target is refused") {
    CHECK_THAT(goal_complaint(goal_twist + free_core), Contains("found none of percent"));
    CHECK_THAT(goal_complaint(goal_twist + "min = 3\nwithin_percent = 1\n" + free_core),
               Contains("not accepted beside min or max"));
    CHECK_THAT(
        goal_complaint("[[target]]\nnumber = \"balance_point.x\"\npercent = 2\n" + free_core),
        Contains("a percentage of a position"));
    CHECK_THAT(goal_complaint("[[target]]\nnumber = \"EI@5000\"\nvalue = 2\n" + free_core),
               Contains("off the board"));
    CHECK_THAT(goal_complaint(goal_twist + "same_as = \"no.toml\"\n" + free_core),
               Contains("no file"));
    CHECK_THAT(goal_complaint(free_core), Contains("at least one [[target]]"));
    CHECK_THAT(goal_complaint(goal_twist + "percent = 1\n"), Contains("at least one [[free]]"));
}

TEST_CASE("what no board can have is refused: a stiffness or a mass that is not above zero") {
    for (const std::string& wrong : {goal_twist + "value = 0\n", goal_twist + "max = -2\n",
                                     std::string("[[target]]\nnumber = \"mass\"\nmax = 0\n")}) {
        CHECK_THAT(goal_complaint(wrong + free_core),
                   Contains("accepted: a number above 0, as ") && Contains("goal.toml:3:"));
    }
    const std::string place = "[[target]]\nnumber = \"balance_point.x\"\nvalue = -12\n";
    CHECK(goal_complaint(place + free_core).empty());
    CHECK(goal_complaint(goal_twist + "min = 0\n" + free_core).empty()); // asks for nothing
}

TEST_CASE("limits and steps of free values hold together and hold the board") {
    const auto free = [](const std::string& lines) {
        return goal_complaint(goal_twist + "percent = 1\n[[free]]\nvalue = " + lines + "\n");
    };
    CHECK_THAT(free("\"core.thickness_mm\"\nmin = 2\nmax = 9"),
               Contains("starts outside its limits 2 to 9: core.thickness_mm[0] is 1.8"));
    CHECK_THAT(free("\"core.thickness_mm\"\nmin = 1.8000001\nmax = 9"),
               Contains("outside its limits 1.8000001 to 9: core.thickness_mm[0] is 1.8"));
    CHECK_THAT(free("\"core.thickness_mm\"\nmin = 9\nmax = 2"), Contains("a number above min"));
    CHECK_THAT(free("\"core.thickness_mm\"\nmin = 0\nmax = 9"), Contains("above 0"));
    CHECK_THAT(free("\"core.thickness_mm\"\nmax = 9"), Contains("free[0].min: missing"));
    CHECK_THAT(free("\"layer.*.angle_deg\"\nmin = -9\nmax = 9\nmax_slope = 0.1"),
               Contains("only stations of the core"));
    CHECK_THAT(free("\"core.thickness_mm[2]\"\nmin = 7.02\nmax = 7.18\nround_to = 0.5"),
               Contains("a multiple between"));
    CHECK_THAT(free("\"*_GPa\"\nmin = 0.001\nmax = 1000\nmax_slop = 1"), Contains("unknown key"));
    CHECK_THAT(free("\"layer.*\"\nmin = 0\nmax = 9"), Contains("different units"));
    CHECK_THAT(free("\"layer.ribbon.fabric\"\nmin = 0\nmax = 9"), Contains("a name, a strength"));
    CHECK_THAT(free("\"planform.polygon_mm\"\nmin = 0\nmax = 9"),
               Contains("a design value of this board or a group"));
    CHECK_THAT(free("\"planform.tail_width_mm\"\nmin = 200\nmax = 300"),
               Contains("free[0].min: there is no such board: tail narrower than the waist"));
    CHECK_THAT(free("\"planform.running_length_mm\"\nmin = 1100\nmax = 1200\n"
                    "carry = [\"planform.waist_width_mm\"]"),
               Contains("which is no station along the board"));
    CHECK_THAT(goal_complaint(goal_twist + "percent = 1\n" + free_core +
                              "[[free]]\nvalue = \"core.thickness_mm[2]\"\nmin = 2\nmax = 9\n"),
               Contains("is free already at goal.toml:4:1"));
    CHECK_THAT(goal_complaint(goal_twist + "percent = 1\n" + free_core +
                              "[[free]]\nvalue = \"core.thickness_scale\"\nmin = 0.9\nmax = 1.1\n"),
               Contains("one of the two"));
}
