#pragma once

#include <string>

#include "io/design/read_family.hpp"
#include "io/read/read_board.hpp"
#include "solver/design/goal.hpp"

namespace vrid {

/// Reads a goal file for a board: what its numbers are to become ([[target]]), which values may
/// move ([[free]]), what to keep small ([objective]) and the edge's condition ([edge]). Numbers are
/// in bench units. \throws InputError with all problems of the file, each with file:line:column:
/// unknown numbers and values with the nearest, limits that the board lies outside of, targets that
/// contradict each other
/// \param family what the file says of several sizes ([approved], [[size]], scale of a target);
/// null: such keys are a problem
Goal read_goal(const std::string& path, const Board& board, Family* family = nullptr);
/// The same from a text; its folder is what same_as is relative to.
Goal read_goal_text(const BoardText& source, const Board& board, Family* family = nullptr);

} // namespace vrid
