#pragma once

#include <vector>

#include "mesh/board/planform.hpp"

namespace vrid {

/// The board's tail and nose and those of `wanted` between them, rising, each place once
/// (same_place.hpp). What is the same place as an end is that end, from within the board or from
/// beyond it; what lies farther off the board is left out. [m]
std::vector<double> board_stations(const Planform& planform, std::vector<double> wanted);

/// Where to look for what is "at" station x: at a jump the side towards the middle counts, and at
/// an end of the board (the same place as it) the board. A station off the board stays. [m]
double beside(const Planform& planform, double x);

} // namespace vrid
