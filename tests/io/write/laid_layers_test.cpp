#include <catch2/catch.hpp>

#include "io/write/drawing.hpp"
#include "solver/response/cross_section.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

const LaidLayer& row(const std::vector<LaidLayer>& layup, const std::string& layer) {
    for (const LaidLayer& one : layup) {
        if (one.layer == layer) {
            return one;
        }
    }
    throw std::out_of_range(layer);
}

Board glass_board() {
    return read_text_board(R"(
format = 1
name = "strip"
[planform]
rectangle_mm = [300, 40]
running_length_mm = 240
[core]
thickness_mm = [[-150, 7], [150, 7]]
strips = [{ material = "poplar", width_mm = 20 }]
[[layer]]
name = "lower"
fabric = "two"
angle_deg = 10
[[layer]]
name = "core"
core = true
[[layer]]
name = "upper"
fabric = "two"
angle_deg = 10
flip = true
[[layer]]
name = "patch"
material = "abs"
thickness_mm = 0.5
zone = { x_mm = [20, 60], y_mm = [5, 15] }
mirror = true
[fabric.two]
resin = "epoxy"
fibre_volume_fraction = 0.5
plies = [
  { fibre = "e-glass", angle_deg = 0, areal_weight_gsm = 254 },
  { fibre = "e-glass", angle_deg = 45, areal_weight_gsm = 127 },
]
)");
}

} // namespace

TEST_CASE("the layup table has plies as they lie: turned, and turned over in opposite order") {
    const std::vector<LaidLayer> layup = laid_layers(glass_board());
    const std::vector<LaidPly> lower = row(layup, "lower").plies;
    CHECK(lower[0].angle_deg == 10);
    CHECK(lower[1].angle_deg == 55);
    const std::vector<LaidPly> upper = row(layup, "upper").plies;
    CHECK(upper[0].angle_deg == -35);
    CHECK(amount_text(upper[0]) == "127");
    CHECK(upper[1].angle_deg == 10);
    CHECK(row(layup, "patch").where == "x 20 to 60, |y| 5 to 15");
    CHECK(row(layup, "lower").where == "everywhere");
}

TEST_CASE("resin and thickness of the layup table follow from the fibre volume fraction") {
    const Board board = glass_board();
    const LaidLayer lower = row(laid_layers(board), "lower");
    // e-glass 2540 and epoxy 1150 kg/m3: 381 g/m2 of glass are 0.15 mm, as much resin beside them
    CHECK(lower.thickness_mm.value_or(0) == Approx(0.3));
    CHECK(lower.resin_gsm.value_or(0) == Approx(0.15 * 1150).epsilon(1e-3));
    const double total = cross_section(board, -0.1).thickness * 1e3; // outside the patch
    CHECK(2 * lower.thickness_mm.value_or(0) + 7 == Approx(total).epsilon(1e-6));
}
