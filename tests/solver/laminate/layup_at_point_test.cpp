#include <cmath>

#include <catch2/catch.hpp>

#include "solver/laminate/layup.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

Material plain_material(const std::string& name, double E) {
    Material material;
    material.name = name;
    material.isotropic = true;
    material.E1 = material.E2 = E;
    material.nu12 = 0.25;
    material.G12 = material.G13 = material.G23 = E / 2.5;
    material.density = 1000;
    return material;
}

// 1 m by 0.2 m: a base, a patch in some zone, a core of three resolved strips.
Board strips_board() {
    Board board;
    board.planform = rectangle_planform(1, 0.2);
    for (const auto& [name, E] : {std::pair("base", 1e9),
                                  {"steel", 200e9},
                                  {"abs", 2e9},
                                  {"ash", 10e9},
                                  {"poplar", 8e9},
                                  {"foam", 0.1e9}}) {
        board.materials[name] = plain_material(name, E);
    }
    board.core = Core{{Interpolation::linear, {-0.5, 0.5}, {4e-3, 8e-3}},
                      {{"ash", 0.03, {}, ""}, {"poplar", 0.02, Range{-0.2, 0.2}, "foam"}},
                      {},
                      std::nullopt,
                      true};
    for (const char* name : {"base", "patch", "core"}) {
        Layer& layer = board.layers.emplace_back();
        layer.name = name;
        layer.material = "base";
        layer.thickness = 1e-3;
    }
    board.layers[2].kind = LayerKind::core;
    return board;
}

std::string core_at(const Board& board, double x, double y) {
    const Layup<double> layup = make_layup<double>(board);
    return layup.core_names[stack_key(layup, Vector2d(x, y)).back()];
}

bool patch_at(Board& board, const Zone& zone, double x, double y) {
    board.layers[1].zone = zone;
    return stack_key(make_layup<double>(board), Vector2d(x, y))[1] != 0;
}

} // namespace

TEST_CASE("a layer is where all bounds of its zone hold, ends included") {
    Board board = strips_board();
    const Zone ribbon{{}, {}, Ribbon{{0, 0}, {0.06, 0.08}, 0.02}, {}, {}};
    CHECK(patch_at(board, ribbon, 0.03, 0.04));
    CHECK(patch_at(board, ribbon, 0.03 - 0.0079, 0.04 + 0.0059)); // 3-4-5: 9.9 mm aside
    CHECK_FALSE(patch_at(board, ribbon, 0.03 - 0.0081, 0.04 + 0.0061));
    CHECK_FALSE(patch_at(board, ribbon, 0.03 + 0.0081, 0.04 - 0.0061));
    CHECK_FALSE(patch_at(board, ribbon, -0.001, -0.001)); // before its end
    CHECK_FALSE(patch_at(board, ribbon, 0.061, 0.081));
    Zone both = ribbon;
    both.y = Range{0.02, 0.05};
    CHECK(patch_at(board, both, 0.03, 0.04));
    CHECK_FALSE(patch_at(board, both, 0.045, 0.06));
    const Zone band{{}, {}, {}, Range{0.01, 0.03}, {}};
    CHECK(patch_at(board, band, 0, -0.08));
    CHECK(patch_at(board, band, 0.48, 0));
    CHECK_FALSE(patch_at(board, band, 0, 0.095));
    CHECK_FALSE(patch_at(board, band, 0, 0.06));
    const Zone polygon{{}, {}, {}, {}, {{0, 0}, {0.1, 0}, {0, 0.05}}};
    CHECK(patch_at(board, polygon, 0.03, 0.02));
    CHECK_FALSE(patch_at(board, polygon, 0.08, 0.04));
    board.layers[1].mirror = true; // a second item above, of the image
    const Layup<double> layup = make_layup<double>(board);
    CHECK(stack_key(layup, Vector2d(0.03, -0.02))[1] == 0);
    CHECK(stack_key(layup, Vector2d(0.03, -0.02))[2] == 1);
    CHECK(stack_key(layup, Vector2d(0.03, 0.02))[2] == 0);
}

TEST_CASE("the core is what its pattern, its stations, sidewall and spacer say") {
    Board board = strips_board();
    CHECK(core_at(board, 0, 0.029) == "ash");
    CHECK(core_at(board, 0, 0.031) == "poplar");
    CHECK(core_at(board, 0, 0.051) == "ash"); // the pattern again
    CHECK(core_at(board, 0, -0.031) == "poplar");
    CHECK(core_at(board, 0.21, 0.031) == "foam");
    CHECK(core_at(board, 0.21, 0.029) == "ash");
    board.core->strips_right = {{"foam", 0.07, {}, ""}, {"ash", 0.1, {}, ""}};
    CHECK(core_at(board, 0, 0.031) == "poplar");
    CHECK(core_at(board, 0, -0.069) == "foam");
    CHECK(core_at(board, 0, -0.071) == "ash");
    board.sidewall = Sidewall{"abs", 0.01, Range{-0.3, 0.3}};
    board.tip_spacer = TipSpacer{"abs", {-0.45, 0.4}};
    CHECK(core_at(board, 0, 0.091) == "abs");
    CHECK(core_at(board, 0.31, 0.091) != "abs");
    CHECK(core_at(board, 0.41, 0) == "abs");
    CHECK(core_at(board, -0.46, 0) == "abs");
    CHECK(core_at(board, 0.39, 0) == "ash");
}

TEST_CASE("edge and flange take the base's place within their widths and stations") {
    Board board = strips_board();
    const auto base_at = [&](double x, double y) {
        const Layup<double> layup = make_layup<double>(board);
        return stack_key(layup, Vector2d(x, y))[3];
    };
    CHECK(base_at(0, 0.0995) == base_only);
    board.edge = Edge{"steel", 2e-3, Range{-0.3, 0.3}, std::nullopt};
    CHECK(base_at(0, 0.0985) == edge_only);
    CHECK(base_at(0, 0.0975) == base_only);
    CHECK(base_at(0.31, 0.0985) == base_only);
    board.edge->flange = Flange{6e-3, 0.5e-3, 0.5};
    CHECK(base_at(0, -0.0985) == edge_and_flange);
    CHECK(base_at(0, -0.0925) == base_and_flange);
    CHECK(base_at(0, -0.0915) == base_only);
    // upwards: edge as high as base and flange; flange on the base; patch and core above
    const Layup<double> layup = make_layup<double>(board);
    const auto thicknesses = [&](double y) {
        std::vector<double> all;
        for (const auto& one : stack_laminae(layup, stack_key(layup, Vector2d(0, y)), 5e-3)) {
            all.push_back(one.thickness);
        }
        return all;
    };
    CHECK(thicknesses(0.0985) == std::vector<double>{1.5e-3, 1e-3, 5e-3});
    CHECK(thicknesses(0.0925) == std::vector<double>{1e-3, 0.5e-3, 1e-3, 5e-3});
    CHECK(thicknesses(0) == std::vector<double>{1e-3, 1e-3, 5e-3});
}

TEST_CASE("a core's thickness is its profile's and the change across, sections are kept by it") {
    Board board = strips_board();
    board.core->cross = Profile{Interpolation::linear, {-0.1, 0.1}, {-1e-3, 1e-3}};
    const Layup<double> layup = make_layup<double>(board);
    CHECK(core_thickness(layup, 0.25) == Approx(7e-3));
    CHECK(core_thickness(layup, Vector2d(0.25, 0.05)) == Approx(7.5e-3));
    SectionCache cache(layup);
    const int ash = cache.stack_index({0, 0});
    CHECK(cache.stack_index({0.3, 0.01}) == ash);
    CHECK(cache.stack_index({0, 0.04}) != ash);
    CHECK(cache.stacks().size() == 2);
    CHECK(cache.section(ash, {0, 0}).thickness == Approx(8e-3)); // base, patch and 6 mm
    CHECK(cache.section(ash, {0.25, 0.05}).thickness == Approx(9.5e-3));
    CHECK(&cache.section(ash, {0, 0}) == &cache.section(ash, {0, 0}));
    Board flat = strips_board();
    flat.core.reset();
    flat.layers.pop_back();
    CHECK(core_thickness(make_layup<double>(flat), Vector2d(0, 0)) == 0);
}
