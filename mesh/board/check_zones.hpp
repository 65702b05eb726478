#pragma once

#include <vector>

#include "mesh/board/board_fault.hpp"
#include "mesh/board/layup.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

/// Where the zones of a layer and their mirror images in y = 0 lie on each other.
struct MirrorOverlap {
    double area = 0;       ///< on the board [m2]; not told of a band
    bool whole = false;    ///< they are their own image
    bool crossing = false; ///< two ribbons that cross, which lie on each other there in a board too
};

/// Good to three digits or so: it tells a mistake, no number rests on it. A band by distance from
/// the outline is its own image: it runs along both sides.
MirrorOverlap mirror_overlap(const std::vector<Zone>& zones, const Planform& planform);

/// False when the zone has no point on the board, as far as a fine grid of points tells.
bool reaches_board(const Zone& zone, const Planform& planform);

/// A range of stations that must reach the board. \param planform null: not known
void check_stations(const std::optional<Range>& x, const Planform* planform, PartCheck& check);

/// The zones of a layer: ranges in order, ribbons with a direction, polygons whose sides do not
/// cross, all on the board; and no mirror image on the layer itself. \param planform null: not
/// known
void check_zones(const Layer& layer, const Planform* planform, PartCheck& check);

} // namespace vrid
