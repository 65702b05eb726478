#pragma once

#include <string>
#include <vector>

#include "io/materials/material_library.hpp"
#include "io/write/board_figures.hpp"
#include "random_board_file.hpp"

namespace vrid::tests {

/// The file through the reader; a drawn outline is written to `folder` first. \throws InputError
Board read_file(const RandomBoardFile& file, const std::string& folder,
                const MaterialLibrary& library);

/// What is not a finite number among all that `vrid check` shows, by name; a side without sidecut
/// radius is none of it.
std::vector<std::string> not_finite(const BoardFigures& figures);

/// Mass of the laminate (resin and inserts not counted) by points of a fine grid over the planform
/// instead of strips along stations: areal weight of the section at each point that the outline's
/// winding number says is inside. Good to about 1 %. [kg]
double mass_by_points(const Board& board);

} // namespace vrid::tests
