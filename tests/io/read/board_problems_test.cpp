// Problems that only sections tell, on boards changed by hand; with places: construction_test.
#include "io/read/board_problems.hpp"

#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Board coupon() {
    return read_text_board(construction_text(plain_strips, rubber_layer("zone = { x_mm = [-50, "
                                                                        "50] }\n")));
}

} // namespace

TEST_CASE("a made board that is whole passes, as the reader's own does") {
    CHECK(section_problems(coupon()).empty());
    CHECK(complaint_of([] { check_made_board(coupon()); }).empty());
}

TEST_CASE("a place without any layer, or a core that an inlay goes through, is told where") {
    Board bare = coupon();
    bare.core.reset();
    bare.layers.resize(2);
    std::swap(bare.layers[0], bare.layers[1]);
    bare.layers.resize(1); // rubber for |x| < 50 mm alone
    const auto problems = section_problems(bare, {{"layer", "b.toml:9:1"}});
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].place == "b.toml:9:1");
    CHECK_THAT(problems[0].message, Contains("layer: no layer lies at x = ") &&
                                        Contains("where the board has no thickness"));
    Board thin = coupon();
    thin.layers[1].inlay = true;
    thin.core->thickness.value = {0.0015};
    CHECK_THAT(complaint_of([&] { check_made_board(thin); }),
               Contains("layer.rubber.inlay: the core is 1.5 mm thick at x = ") &&
                   Contains(" and 2 mm are let into it"));
}

TEST_CASE("a made board with a fault is told that, not what its sections would be") {
    Board board = coupon();
    board.layers[1].thickness = -0.002;
    CHECK_THAT(complaint_of([&] { check_made_board(board); }),
               Contains("layer.rubber.thickness_mm") && Contains("-2"));
}
