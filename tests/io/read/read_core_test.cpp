// The core's table, each key with a value of its own; what is refused: read_board_bad,
// construction.
#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

Core core_of(const std::string& keys) {
    return *read_text_board(construction_text(keys, "")).core;
}

} // namespace

TEST_CASE("strips are read from the middle outwards, with where they are and what fills the rest") {
    const Core core = core_of("interpolation = \"linear\"\nresolve = true\nstrips = [\n"
                              "{ material = \"wood\", width_mm = 36 },\n"
                              "{ material = \"other\", width_mm = 18.5, x_mm = [-42, 37], "
                              "fill = \"rubber\" }]\n");
    CHECK(core.thickness.interpolation == Interpolation::linear);
    CHECK(core.thickness.x == std::vector<double>{0});
    CHECK(core.thickness.value == std::vector<double>{0.008});
    CHECK(core.resolve);
    REQUIRE(core.strips.size() == 2);
    CHECK(core.strips[0].material == "wood");
    CHECK(core.strips[0].width == 0.036);
    CHECK_FALSE(core.strips[0].x);
    CHECK(core.strips[0].fill.empty());
    CHECK(core.strips[1].material == "other");
    CHECK(core.strips[1].width == 0.0185);
    CHECK(*core.strips[1].x == Range{-0.042, 0.037});
    CHECK(core.strips[1].fill == "rubber");
    CHECK(core.strips_right.empty());
    CHECK_FALSE(core.cross);
}

TEST_CASE("halves are read left and right, a cross profile by signed y and always straight") {
    const Core core = core_of("strips_left = [{ material = \"wood\", width_mm = 10 }]\n"
                              "strips_right = [{ material = \"other\", width_mm = 20 }]\n"
                              "cross_mm = [[-60, -0.5], [20, 0], [60, 1]]\n");
    CHECK(core.thickness.interpolation == Interpolation::smooth);
    CHECK(core.strips.at(0).material == "wood");
    CHECK(core.strips_right.at(0).material == "other");
    CHECK(core.strips_right.at(0).width == 0.02);
    REQUIRE(core.cross);
    CHECK(core.cross->x == std::vector<double>{-0.06, 0.02, 0.06});
    CHECK(core.cross->value == std::vector<double>{-0.0005, 0, 0.001});
    CHECK(core.cross->interpolation == Interpolation::linear);
    CHECK_FALSE(core.resolve);
}
