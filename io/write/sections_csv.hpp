#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/response/cross_section.hpp"

namespace vrid {

/// Width, thickness, EI and GJ from the section itself at even stations between the tips, where
/// the board has a section. \param step between them [m]; a long board: two thousand of them
std::vector<CrossSection> sections_along(const Board& board, double step);

/// The same as a table: what pictures draw, where the stations of a mesh lie far apart. Columns as
/// stations.csv
std::string sections_csv(const Board& board, double step = 0.002);

} // namespace vrid
