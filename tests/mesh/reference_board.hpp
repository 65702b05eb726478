#pragma once

#include <optional>

#include "mesh/board/board.hpp"

/// The reference board's geometry: planform, core stations, ribbons, edge, sidewall, stance.
inline vrid::Board reference_board() {
    using vrid::Range;
    vrid::Board board;
    board.planform =
        vrid::parametric_planform({1.135, 0.25, 0.291, 0.286, -0.0185, 0.22, 0.215, 0.6, 0.6});
    board.core.emplace();
    board.core->thickness.x = {-0.7825, -0.6625, -0.5975, -0.5675, -0.4825, -0.3825,
                               -0.2925, -0.1525, -0.0125, 0.1275,  0.2675,  0.3575,
                               0.4575,  0.5675,  0.6025,  0.6675,  0.7875};
    board.core->thickness.value = {1.8e-3, 1.9e-3, 2.2e-3, 2.5e-3, 4.1e-3, 6.0e-3,
                                   7.1e-3, 6.9e-3, 6.8e-3, 6.9e-3, 7.1e-3, 6.0e-3,
                                   4.1e-3, 2.5e-3, 2.2e-3, 1.9e-3, 1.8e-3};
    vrid::Layer ribbon;
    ribbon.name = "ribbon";
    ribbon.zone.x = Range{-0.52, 0.52};
    ribbon.zone.y = Range{0.045, 0.075};
    ribbon.mirror = true;
    board.layers.push_back(ribbon);
    board.edge = vrid::Edge{"steel", 0.002, Range{-0.6, 0.6}, vrid::Flange{0.0065, 0.0005, 0.5}};
    board.sidewall = vrid::Sidewall{"abs", 0.008, std::nullopt};
    board.stance = vrid::Stance{0.56, 0.0125, 0.1, 0.11};
    return board;
}
