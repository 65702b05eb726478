#include "io/write/weaker.hpp"

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

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
