#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/laminate/stacking.hpp"
#include "solver/shop/region.hpp"

namespace vrid {

/// What is cut, sawn or bent for one place in the stack: something of one make, and where it lies
/// on the board.
struct BoardPart {
    PartKind of = PartKind::layer;
    std::size_t layer = 0;     ///< of Board::layers: the one that it is of, or in place of
    bool mirror_image = false; ///< the second of a layer with `mirror`
    double roll_angle = 0;     ///< of its 0 direction, against +x; along its ribbons [rad]
    Region where;
    std::vector<CoreShare> shares; ///< of a core cell, sum to 1; else empty
};

/// All parts of the board upwards, as the stacking rule of solver/laminate/stacking.hpp has them:
/// the edge in place of the base, sidewall and spacers in place of the core. The core comes in
/// cells of one mix of woods: smeared strips between the stations where a strip begins or ends,
/// resolved ones each for itself.
std::vector<BoardPart> board_parts(const Board& board);

/// Where one of the zones is, on a board with this outline; or its mirror image, if asked for.
/// \param zones at least one
Region zones_region(const std::vector<Zone>& zones, const Region& outline, bool mirror);

} // namespace vrid
