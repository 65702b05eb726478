#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/design/design_board.hpp"
#include "solver/design/number_id.hpp"

namespace vrid {

/// Numbers that need no mesh: mass, balance point, EI, GJ and thickness at a station, sidecut
/// radius, length, area.
bool needs_no_mesh(const NumberId& request);
Quantity plain_number(const Board& board, const NumberId& request);
/// Derivatives of such numbers, by central differences: requests x lines, SI by SI.
Eigen::MatrixXd plain_shape_slopes(const Board& board, const std::vector<NumberId>& requests,
                                   const std::vector<LineValue>& lines);
/// Takes out of the balance point's derivatives what a symmetric board owes to rounding: less than
/// a picometre for a workshop step.
void clear_rounding(const DesignBoard& design, BoardNumbers& found);

} // namespace vrid
