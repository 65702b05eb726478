#pragma once

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

} // namespace vrid
