#pragma once

#include <string>

#include "mesh/board/board.hpp"

namespace vrid {

/// Width, thickness, EI and GJ from the section itself, every 2 mm between the tips (a long board:
/// two thousand steps): what pictures draw, where the stations of a mesh lie far apart.
/// \param step of the table [m]; columns as stations.csv
std::string sections_csv(const Board& board, double step = 0.002);

} // namespace vrid
