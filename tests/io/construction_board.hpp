#pragma once

#include <string>

#include "tests/io/demo_board.hpp"

namespace vrid::tests {

/// A coupon of 400 x 120 mm, core 8 mm thick of 500 kg/m3, sheets of 1 mm below and above: what
/// stands in the core's table after its thickness, then the layers around the core, is free.
inline std::string construction_text(const std::string& core, const std::string& below,
                                     const std::string& above = "") {
    return R"(format = 1
name = "Coupon"
[planform]
rectangle_mm = [400, 120]
[core]
thickness_mm = [[0, 8]]
)" + core + R"(
[[layer]]
name = "lower sheet"
material = "sheet"
thickness_mm = 1
)" + below +
           R"(
[[layer]]
name = "core"
core = true
)" + above +
           R"(
[[layer]]
name = "upper sheet"
material = "sheet"
thickness_mm = 1
[material.wood]
E_GPa = 10
nu = 0.3
density_kgm3 = 500
[material.other]
E_GPa = 5
nu = 0.3
density_kgm3 = 300
[material.sheet]
E_GPa = 20
nu = 0.3
density_kgm3 = 2000
[material.rubber]
E_GPa = 0.01
nu = 0.4
density_kgm3 = 1100
)";
}

inline const std::string plain_strips = "strips = [{ material = \"wood\", width_mm = 10 }]\n";

/// A rubber layer, 2 mm thick, with further keys.
inline std::string rubber_layer(const std::string& keys) {
    return "[[layer]]\nname = \"rubber\"\nmaterial = \"rubber\"\nthickness_mm = 2\n" + keys + "\n";
}

} // namespace vrid::tests
