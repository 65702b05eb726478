#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/response/cooled_shape.hpp"

namespace vrid {

/// A station of the line that a mould is milled to.
struct MouldPoint {
    double x = 0;      ///< [m]
    double wanted = 0; ///< height of the rest shape; 0 without one [m]
    double change = 0; ///< what the press does to it, from the contact line up [m]
    double mould = 0;  ///< wanted - change [m]
};

/// The mould that gives the rest shape at the temperature of `shape`.
std::vector<MouldPoint> mould_line(const Board& board, const CooledShape& shape);

/// Camber of the rest shape: its height at x = 0 above the line through the contact stations; 0
/// without a rest shape [m].
double wanted_camber(const Board& board);

/// What of the released board is told as the board out of a mould that exists: the mould's own and
/// what the press adds to it.
inline constexpr std::array pressed_names{"camber", "camber_edge", "nose_height", "tail_height"};

/// The mould's own part of one of pressed_names: its height at x = 0, or at a tip, above the line
/// through its heights at the contact stations [m]. \param board has a mould that exists
double mould_rise(const Board& board, const std::string& name);

} // namespace vrid
