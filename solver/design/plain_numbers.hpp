#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/design/design_board.hpp"
#include "solver/design/number_id.hpp"
#include "solver/response/section_weights.hpp"

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

/// EI, GJ or thickness at a station.
struct StationNumber {
    double value = 0;                              ///< SI
    std::shared_ptr<const SectionWeights> weights; ///< one column; null: of a thickness, or unasked
};

/// \param requests of these three kinds; each station is looked at once
std::vector<StationNumber> station_numbers(const Board& board,
                                           const std::vector<NumberId>& requests, bool weights);

} // namespace vrid
