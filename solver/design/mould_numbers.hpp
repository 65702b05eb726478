#pragma once

#include <vector>

#include "solver/design/board_numbers.hpp"

namespace vrid {

/// A number of a shape from that of the released board: of the mould for the rest shape it is the
/// wanted one less what comes, of the board out of a mould that exists ("pressed") the mould's own
/// and what comes, else what comes. \param cooled SI
double shape_value(const Board& board, const NumberId& request, double cooled);

/// Of values that move lines those that only place stations of a mould that exists: no line of the
/// mesh goes along, and no number but those of the board out of that mould.
std::vector<LineValue> of_mould(const std::vector<LineValue>& lines);
/// All others.
std::vector<LineValue> moving(const std::vector<LineValue>& lines);

/// Adds the derivatives by values of_mould to the slopes: central differences of the mould's own
/// line.
void add_mould_slopes(const Board& board, const std::vector<LineValue>& lines,
                      BoardNumbers& numbers);

} // namespace vrid
