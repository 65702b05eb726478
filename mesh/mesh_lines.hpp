#pragma once

#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// Everything of a board that tells where lines of its mesh run, one number after the other: the
/// same for two boards exactly when one's mesh fits the other. Values of the section are left out.
std::vector<double> mesh_lines(const Board& board);

} // namespace vrid
