#pragma once

#include "io/design/board_draft.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// Writes the values that move lines of the mesh and differ between the two boards into the draft
/// of the first one's file. \throws InputError for one that the file itself does not hold
void edit_lines(BoardDraft& draft, const Board& was, const Board& wanted);

} // namespace vrid
