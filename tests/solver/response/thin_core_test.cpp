#include "solver/response/thin_core.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

// 1 m by 0.2 m, a core of 2 mm at its ends and 6 mm in its middle, a patch of 1 mm on it.
Board patched_core() {
    Board board;
    board.planform = rectangle_planform(1, 0.2);
    Material& wood = board.materials["wood"];
    wood.isotropic = true;
    wood.E1 = wood.E2 = 1e9;
    wood.G12 = wood.G13 = wood.G23 = 0.4e9;
    wood.nu12 = 0.25;
    wood.density = 500;
    board.core = Core{{Interpolation::linear, {-0.5, 0, 0.5}, {2e-3, 6e-3, 2e-3}},
                      {{"wood", 0.2, {}, ""}},
                      {},
                      std::nullopt,
                      false};
    for (const char* name : {"base", "core", "patch"}) {
        Layer& layer = board.layers.emplace_back();
        layer.name = name;
        layer.material = "wood";
        layer.thickness = 1e-3;
    }
    board.layers[1].kind = LayerKind::core;
    board.layers[2].zone.x = Range{-0.45, 0.1};
    return board;
}

} // namespace

TEST_CASE("a core is used up where layers let into it and its change across leave nothing") {
    Board board = patched_core();
    CHECK_FALSE(thin_core(board)); // the patch lies on it
    board.layers[2].inlay = true;
    CHECK_FALSE(thin_core(board)); // 2.4 mm at its end
    board.layers[2].thickness = 2.5e-3;
    const auto found = thin_core(board);
    REQUIRE(found);
    CHECK(found->at.x() == Approx(-0.45).margin(1e-5));
    CHECK(found->thickness == Approx(2.4e-3).epsilon(1e-3));
    CHECK(found->inlaid == Approx(2.5e-3));
    CHECK(found->layer == "patch");
    board.layers[2].inlay = false;
    board.core->cross = Profile{Interpolation::linear, {-0.1, 0, 0.1}, {-1.9e-3, 0, 0}};
    CHECK_FALSE(thin_core(board)); // 0.1 mm are left at the ends' right corners
    board.core->cross->value[0] = -2.1e-3;
    const auto across = thin_core(board);
    REQUIRE(across);
    CHECK(std::abs(across->at.x()) == Approx(0.5).margin(1e-5));
    CHECK(across->at.y() == Approx(-0.1));
    CHECK(across->thickness == Approx(-0.1e-3).margin(1e-6));
    CHECK(across->layer.empty());
    board.tip_spacer = TipSpacer{"wood", {-0.4, 0.4}}; // in the core's place, as high as it
    CHECK(thin_core(board));
    board.core.reset();
    CHECK_FALSE(thin_core(board));
}
