#include "solver/shop/core_volume.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

// Core 8 mm at the middle, straight down to 2 mm at either end of 1 m.
Board roof_core() {
    Board board;
    board.planform = rectangle_planform(1, 0.2);
    board.core = Core{
        {Interpolation::linear, {-0.5, 0, 0.5}, {2e-3, 8e-3, 2e-3}}, {}, {}, std::nullopt, false};
    return board;
}

} // namespace

TEST_CASE("a core's volume is that of its prisms, wherever it is cut") {
    Board board = roof_core();
    const auto volume = [&](const Region& where) { return core_volume(board, where); };
    CHECK(volume(planform_region(board.planform)) == Approx(0.2 * 5e-3));
    CHECK(volume(rectangle_region({-0.25, 0.5}, {0, 0.1})) ==
          Approx(0.1 * (0.25 * 6.5e-3 + 0.5 * 5e-3)));
    // a triangle: its mean thickness is that at its centroid, on one slope
    CHECK(volume(polygon_region({{0.1, 0}, {0.4, 0}, {0.1, 0.1}})) ==
          Approx(0.015 * (8e-3 - 12e-3 * 0.2)));
    // and one across the ridge: 2 x the half, whose centroid lies at 0.1
    CHECK(volume(polygon_region({{-0.3, 0}, {0.3, 0}, {0, 0.1}})) ==
          Approx(0.03 * (8e-3 - 12e-3 * 0.1)));
    // one with a slanted side across the ridge: the integral of |x| by strips of y is 0.0035/0.9
    CHECK(volume(polygon_region({{-0.2, 0}, {0.4, 0}, {0.1, 0.1}})) ==
          Approx(0.03 * 8e-3 - 12e-3 * 0.0035 / 0.9));
    board.core->cross = Profile{Interpolation::linear, {-0.1, 0, 0.1}, {-1e-3, 0, -2e-3}};
    CHECK(volume(planform_region(board.planform)) ==
          Approx(0.2 * 5e-3 - 0.1 * 0.5e-3 - 0.1 * 1e-3));
    CHECK(core_thickness(board, 0.25, -0.05) == Approx(5e-3 - 0.5e-3));
    // beyond its stations a profile stays as it is at the last
    board.core->thickness.x = {-0.3, 0, 0.3};
    board.core->cross.reset();
    CHECK(volume(planform_region(board.planform)) == Approx(0.2 * (0.6 * 5e-3 + 0.4 * 2e-3)));
    board.core->thickness.interpolation = Interpolation::smooth; // symmetric about its mean
    CHECK(volume(rectangle_region({-0.5, 0.5}, {-0.1, 0.1})) ==
          Approx(2 * volume(rectangle_region({0, 0.5}, {-0.1, 0.1}))));
}

TEST_CASE("layers let into the core are taken off where they lie, on both sides if mirrored") {
    Board board = roof_core();
    Layer& patch = board.layers.emplace_back();
    patch.kind = LayerKind::material;
    patch.thickness = 0.5e-3;
    patch.inlay = true;
    patch.zone.x = Range{-0.1, 0.1};
    patch.zone.y = Range{0.02, 0.07};
    const Region all = planform_region(board.planform);
    CHECK(core_volume(board, all) == Approx(1e-3 - 0.2 * 0.05 * 0.5e-3));
    patch.mirror = true;
    CHECK(core_volume(board, all) == Approx(1e-3 - 2 * 0.2 * 0.05 * 0.5e-3));
    CHECK(core_volume(board, rectangle_region({-0.5, 0.5}, {-0.1, 0})) ==
          Approx(0.5e-3 - 0.2 * 0.05 * 0.5e-3));
}

TEST_CASE("a fabric is as thick as its fibres and their share say") {
    Board board = roof_core();
    board.materials["glass"].density = 2500;
    board.fabrics["cloth"] = {
        "cloth", "epoxy", 0.4, {{0, "glass", 0.3, "", 0}, {1, "", 0, "prepreg", 0.2e-3}},
        "",      0,       ""};
    Layer layer;
    layer.kind = LayerKind::fabric;
    layer.fabric = "cloth";
    CHECK(layer_thickness(board, layer) == Approx(0.3 / 2500 / 0.4 + 0.2e-3));
    layer.kind = LayerKind::material;
    layer.thickness = 1e-3;
    CHECK(layer_thickness(board, layer) == 1e-3);
}
