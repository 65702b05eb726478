#include "io/write/match_report.hpp"

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"
#include "tests/solver/glass_strip.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Catch::StartsWith;

TEST_CASE("a core station more than a twentieth thinner and a layer that lost weight are named") {
    const Board before = read_text_board(demo_board_text());
    Board after = before;
    REQUIRE(after.core->thickness.value.size() > 3);
    after.core->thickness.value[1] *= 0.94;
    after.core->thickness.value[2] *= 0.96;
    after.core->thickness.value[3] *= 1.1;
    std::size_t lighter = 0;
    while (after.layers[lighter].kind != LayerKind::material) {
        ++lighter;
    }
    after.layers[lighter].thickness *= 0.9;
    const Weaker weaker = weaker_places(before, after);
    REQUIRE(weaker.stations.size() == 1);
    CHECK(weaker.stations[0].x == before.core->thickness.x[1]);
    CHECK(weaker.stations[0].after == Approx(0.94 * weaker.stations[0].before));
    REQUIRE(weaker.layers.size() == 1);
    CHECK(weaker.layers[0].name == before.layers[lighter].name);
    CHECK(weaker.layers[0].after == Approx(0.9 * weaker.layers[0].before));
    CHECK_THAT(weaker_text(weaker), Contains("strength was not looked at") &&
                                        Contains("layer " + weaker.layers[0].name));
    CHECK(weaker_text(weaker_places(before, before)).empty());
    CHECK(weaker_places(after, before).layers.empty());
}

TEST_CASE("a case whose loads differ by less than their two bars is not called weaker") {
    const auto place = [](double load) {
        FailurePlace one;
        one.load = {load, 30, Unit::force};
        return one;
    };
    Weaker weaker;
    weaker.judged = true;
    weaker.failures = {{"nose-flex", place(1000), place(900)},
                       {"tail-flex", place(1000), place(945)}};
    CHECK(strength_words(weaker) == "nose-flex gives earlier than before; whether tail-flex gives "
                                    "earlier than before is not resolved (nominal strengths)");
    const std::string text = weaker_text(weaker);
    const std::size_t unsure = text.find("not resolved");
    CHECK(text.find("nose-flex") < unsure);
    CHECK(unsure < text.find("tail-flex"));
    weaker.failures.erase(weaker.failures.begin());
    CHECK_THAT(weaker_text(weaker), !Contains("weaker than before") && Contains("not resolved"));
    CHECK_THAT(strength_words(weaker), StartsWith("whether tail-flex gives"));
}

TEST_CASE("a case that gives at a load lower by more than a twentieth is named, others are not; "
          "without strengths none is looked at") {
    const Board before = glass_strip(0.6);
    Settings settings;
    settings.threads = 1;
    Weaker same;
    add_earlier_failures(before, before, settings, same);
    CHECK(same.judged);
    CHECK(same.failures.empty());
    CHECK(strength_words(same) ==
          "no bench case gives at a load lower by more than 5 % (nominal strengths)");
    Board after = before;
    after.core->thickness.value.front() *= 0.9;
    Weaker weaker;
    add_earlier_failures(before, after, settings, weaker);
    REQUIRE_FALSE(weaker.failures.empty());
    for (const EarlierFailure& one : weaker.failures) {
        CHECK(one.after.load.value < 0.95 * one.before.load.value);
    }
    weaker.failures = {weaker.failures.front(), weaker.failures.front()};
    weaker.failures[0].bench_case = "nose-flex";
    weaker.failures[1].bench_case = "tail-flex";
    CHECK(strength_words(weaker) ==
          "nose-flex, tail-flex give earlier than before (nominal strengths)");
    Board bare = before;
    for (auto& [name, material] : bare.materials) {
        material.strengths = {};
    }
    Weaker unknown;
    add_earlier_failures(bare, bare, settings, unknown);
    CHECK_FALSE(unknown.judged);
    CHECK(strength_words(unknown) == "strength was not looked at");
}
