// Conditions of the edge as typed.
#include "io/verbs/study_arguments.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using Options = std::map<std::string, std::vector<std::string>>;

std::vector<EdgeCondition> conditions_of(const Options& options) {
    Arguments arguments;
    arguments.options = options;
    return edge_conditions(arguments);
}

std::string refused_condition(const Options& options) {
    return complaint_of([&] { (void)conditions_of(options); });
}

} // namespace

TEST_CASE("what is not typed is 45 deg, 800 N, packed snow, half the load on each foot, left") {
    const auto all = conditions_of({});
    REQUIRE(all.size() == 1);
    CHECK(all[0].side == Side::left);
    CHECK(all[0].tilt == Approx(std::numbers::pi / 4));
    CHECK(all[0].force == 800);
    CHECK(all[0].hardness == 0.5e9);
    CHECK(all[0].share == 0.5);
    CHECK(all[0].law == SnowLaw::volume);
    CHECK_FALSE(all[0].bent);
    CHECK(conditions_of({{"--law", {"linear"}}})[0].hardness == 10e6);
}

TEST_CASE("a map has every angle with every snow, share and load, the loads fastest, left first") {
    const auto all = conditions_of({{"--angle", {"30,60"}},
                                    {"--force", {"700", "900"}},
                                    {"--hardness", {"soft,2.5"}},
                                    {"--share", {"0,1"}},
                                    {"--side", {"both"}},
                                    {"--bent", {""}}});
    REQUIRE(all.size() == 32);
    CHECK(all[0].force == 700);
    CHECK(all[1].force == 900);
    CHECK(all[1].share == 0);
    CHECK(all[2].share == 1);
    CHECK(all[3].hardness == 0.05e9);
    CHECK(all[4].hardness == 2.5e9);
    CHECK(all[7].tilt == Approx(std::numbers::pi / 6));
    CHECK(all[8].tilt == Approx(std::numbers::pi / 3));
    CHECK(all[15].side == Side::left);
    CHECK(all[16].side == Side::right);
    CHECK(all[16].tilt == all[0].tilt);
    CHECK(all[31].bent);
    CHECK(conditions_of({{"--side", {"right"}}}).at(0).side == Side::right);
    const auto linear = conditions_of({{"--law", {"linear"}}, {"--hardness", {"3"}}});
    CHECK(linear.at(0).hardness == 3e6);
    CHECK(linear.at(0).law == SnowLaw::linear);
}

TEST_CASE("every part that is no number in its range is told, with what is accepted") {
    CHECK(conditions_of({{"--angle", {"10,80"}}, {"--force", {"100000"}}}).size() == 2);
    CHECK_THAT(refused_condition({{"--angle", {"9.9,45,81"}}}),
               Contains("--angle: found '9.9'; accepted: a number from 10 to 80") &&
                   Contains("found '81'") && !Contains("found '45'"));
    CHECK_THAT(refused_condition({{"--force", {"0"}}}),
               Contains("--force: found '0'; accepted: a number above 0 and up to 100000"));
    CHECK_THAT(refused_condition({{"--share", {"0.5,"}}}), Contains("--share: found ''"));
    CHECK_THAT(refused_condition({{"--hardness", {"pakced"}}}),
               Contains("in N/mm3, or soft, packed, hard, ice; did you mean 'packed'?"));
    CHECK_THAT(refused_condition({{"--hardness", {"ice"}}, {"--law", {"linear"}}}),
               Contains("--hardness: found 'ice'") && Contains("in N/mm2"));
    CHECK_THAT(refused_condition({{"--side", {"front"}}}),
               Contains("--side: found 'front'; accepted: left, right, both"));
    CHECK_THAT(refused_condition({{"--law", {"cubic"}}}), Contains("accepted: volume, linear"));
    CHECK_THAT(refused_condition({{"--bent", {""}}, {"--flat", {""}}}),
               Contains("--bent: does not go with --flat"));
}
