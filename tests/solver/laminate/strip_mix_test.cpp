#include "solver/laminate/strip_mix.hpp"

#include <cmath>
#include <tuple>

#include <catch2/catch.hpp>

#include "mesh/board/material_keys.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"

using namespace vrid;

namespace {

// A bare core, 1000 x 250 x 8 mm, of two invented woods without Poisson's ratio.
Board core_of(const std::vector<Strip>& strips, bool resolve, const Planform& planform) {
    Board board;
    board.name = "core";
    board.planform = planform;
    for (const auto& [name, E1, density] :
         {std::tuple{"light", 6e9, 300.0}, std::tuple{"heavy", 15e9, 700.0}}) {
        Material wood;
        wood.name = name;
        wood.E1 = E1;
        wood.E2 = 0.8e9;
        wood.G12 = wood.G13 = 0.6e9;
        wood.G23 = 0.2e9;
        wood.nu12 = 0;
        wood.density = density;
        complete(wood);
        board.materials[name] = wood;
    }
    board.core = Core{};
    board.core->thickness = {Interpolation::linear, {-0.5, 0.5}, {8e-3, 8e-3}};
    board.core->strips = strips;
    board.core->resolve = resolve;
    Layer core;
    core.name = "core";
    core.kind = LayerKind::core;
    board.layers = {core};
    return board;
}

Board core_of(const std::vector<Strip>& strips, bool resolve) {
    return core_of(strips, resolve, rectangle_planform(1, 0.25));
}

const std::vector<Strip> wider_than_half{{"light", 0.1, {}, ""}, {"heavy", 0.09, {}, ""}};

} // namespace

TEST_CASE("within a half width lie whole patterns and the part of one that is left") {
    const std::vector<Strip> strips{{"light", 0.02, {}, ""}, {"heavy", 0.01, {}, ""}};
    const auto check = [&](double half, double light, double heavy) {
        const std::vector<double> widths = widths_within(strips, half);
        REQUIRE(widths.size() == 2);
        CHECK(widths[0] == Approx(light).epsilon(1e-12));
        CHECK(widths[1] == Approx(heavy).epsilon(1e-12));
    };
    check(0.1, 0.07, 0.03);
    check(0.115, 0.08, 0.035);
    CHECK(widths_within(strips, 0) == std::vector<double>{0, 0});
}

TEST_CASE(
    "smeared strips weigh and bend as resolved ones where the pattern is cut at the outline") {
    // of 125 mm half width 100 are light and 25 heavy; the heavy strip's other 65 fit nowhere
    const Board smeared = core_of(wider_than_half, false);
    const Board resolved = core_of(wider_than_half, true);
    const CoreMix mix = core_mix(smeared);
    CHECK_FALSE(mix.right);
    CHECK(mix.left.share.at(0).at(0) == Approx(0.8).epsilon(1e-12));
    CHECK(mix.left.share.at(0).at(1) == Approx(0.2).epsilon(1e-12));
    CHECK(board_mass(smeared).mass == Approx(board_mass(resolved).mass).epsilon(1e-9));
    CHECK(board_mass(smeared).mass == Approx(8e-3 * 0.25 * (0.8 * 300 + 0.2 * 700)).epsilon(1e-9));
    // nu = 0: the modulus of the section is the mean by width
    CHECK(cross_section(smeared, 0).EI == Approx(cross_section(resolved, 0).EI).epsilon(1e-9));
}

TEST_CASE(
    "a pattern that repeats twice within the half width has its own shares, whatever is cut off") {
    const std::vector<Strip> twice{{"light", 0.04, {}, ""}, {"heavy", 0.022, {}, ""}};
    CHECK(core_mix(core_of(twice, false)).left.share.at(0).at(1) == Approx(0.022 / 0.062));
    const std::vector<Strip> once{{"light", 0.04, {}, ""}, {"heavy", 0.023, {}, ""}};
    CHECK(core_mix(core_of(once, false)).left.share.at(0).at(1) == Approx(0.045 / 0.125));
}

TEST_CASE("strips that end, a sidewall and a tip spacer cut the mix as they cut the core") {
    Board board =
        core_of({{"light", 0.1, {}, ""}, {"heavy", 0.09, Range{-0.2, 0.3}, "light"}}, false);
    board.sidewall = Sidewall{"light", 0.005, Range{-0.2, 0.1}};
    const CoreMix mix = core_mix(board);
    REQUIRE(mix.left.breaks == std::vector<double>{-0.2, 0.3});
    CHECK(mix.left.share[0][0] == Approx(0.8).epsilon(1e-12));
    // 300 of 500 mm beside the sidewall: 100 of 120 mm, 200 of 125 mm
    CHECK(mix.left.share[1][0] == Approx(0.1 * 0.5 / (0.3 * 0.12 + 0.2 * 0.125)).epsilon(1e-12));
    Board triangle = core_of(wider_than_half, false,
                             polygon_planform({{-0.5, -0.25}, {0.5, 0}, {-0.5, 0.25}}, 0.5));
    // half width (0.5 - x) / 4: light out to 0.1, which is all beyond x = 0.1
    const double light = 0.06 + 0.02 + 0.06 * 0.24 / 2; // out to 0.1, and beyond 0.19
    CHECK(core_mix(triangle).left.share[0][0] == Approx(light / 0.125).epsilon(1e-4));
    triangle.tip_spacer = TipSpacer{"light", {-0.5, 0.1}};
    CHECK(core_mix(triangle).left.share[0][0] == Approx((light - 0.02) / 0.105).epsilon(1e-4));
}

TEST_CASE(
    "an outline of unlike halves has the mix of both, halves of own strips have each theirs") {
    const Planform unlike =
        polygon_planform({{-0.5, -0.1}, {0.5, -0.1}, {0.5, 0.125}, {-0.5, 0.125}}, 0.8);
    const double mass = 8e-3 * (0.2 * 300 + 0.025 * 700);
    Board board = core_of(wider_than_half, false, unlike);
    CHECK_FALSE(core_mix(board).right);
    CHECK(core_mix(board).left.share[0][1] == Approx(0.025 / 0.225).epsilon(1e-12));
    CHECK(board_mass(board).mass == Approx(mass).epsilon(1e-9));
    board.core->strips_right = board.core->strips;
    const CoreMix mix = core_mix(board);
    REQUIRE(mix.right);
    CHECK(mix.left.share[0][1] == Approx(0.2).epsilon(1e-12));
    CHECK(std::abs(mix.right->share[0][1]) < 1e-12);
    CHECK(board_mass(board).mass == Approx(mass).epsilon(1e-9));
}
