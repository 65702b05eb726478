#pragma once

#include <numbers>

#include "io/sheet/shop_sheet.hpp"

namespace vrid::tests {

/// A sheet made by hand of round numbers, two pieces of a roll and a base; 5 boards.
inline ShopSheet sheet_example() {
    ShopSheet sheet;
    sheet.board.name = "plank";
    sheet.board.hash = "0123abcd";
    sheet.board.planform = rectangle_planform(0.3, 0.1);
    sheet.board.fabrics["triax"].resin = "epoxy";
    sheet.board.mass_only.resin = 0.2; // 6 g
    sheet.options.boards = 5;
    CutPiece base;
    base.layer = "base";
    base.made_of = "uhmwpe";
    base.shape.loops = {{{-0.15, -0.05}, {0.15, -0.05}, {0.15, 0.05}, {-0.15, 0.05}}};
    base.area = 0.03;
    base.length = 0.3;
    base.width = 0.1;
    base.dry_mass = 0.0345;
    CutPiece glass = base;
    glass.layer = "Lower \"glass\"";
    glass.made_of = "triax";
    glass.fabric = glass.turned_over = true;
    glass.roll_angle = 0.25 * std::numbers::pi;
    glass.resin_mass = 0.02;
    CutPiece mirror = glass;
    mirror.mirror_image = true;
    mirror.resin_mass = 0.03;
    sheet.pieces = {base, glass, mirror};
    RollUse roll{"triax", 1.27, 0.31, 2.25, 0.125, 0};
    RollUse veil{"veil", 0, 0.15, 0, 0, 0};
    sheet.rolls = {roll, veil};
    LayUpStep first{"base", {}, 0.0345, 0.0345, 0.0012};
    LayUpStep second{"glass, twice", {}, 0.1, 0.1345, 0.0034};
    sheet.steps = {first, second};
    return sheet;
}

} // namespace vrid::tests
