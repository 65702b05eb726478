#pragma once

#include "mesh/board/board.hpp"
#include "solver/shop/region.hpp"

namespace vrid {

/// Volume of the core over a region of the board, layers let into it taken off [m3]. Exact on the
/// region's straight borders: Green's theorem turns the integral into one along them.
double core_volume(const Board& board, const Region& where);

/// Core thickness on the board [m].
double core_thickness(const Board& board, double x, double y);

/// Thickness of a cured layer that is no core [m].
double layer_thickness(const Board& board, const Layer& layer);

} // namespace vrid
