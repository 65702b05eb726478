#pragma once

#include "mesh/board/board_fault.hpp"

namespace vrid {

bool has_core_layer(const Board& board);

/// Tip spacer, edge, sidewall, stance, masses and rest shape. \param planform null: not known
void check_hardware(const Board& board, const Planform* planform, std::vector<BoardFault>& faults);

} // namespace vrid
