#pragma once

#include <vector>

#include "mesh/board/layup.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

/// Where a zone and its mirror image in y = 0 lie on each other.
struct MirrorOverlap {
    double area = 0;       ///< on the board [m2]; not told of a band
    bool whole = false;    ///< the zone is its own image
    bool crossing = false; ///< two ribbons that cross, which lie on each other there in a board too
};

/// Good to three digits or so: it tells a mistake, no number rests on it. A band by distance from
/// the outline is its own image: it runs along both sides.
MirrorOverlap mirror_overlap(const Zone& zone, const Planform& planform);
/// The same of all zones of a layer together.
MirrorOverlap mirror_overlap(const std::vector<Zone>& zones, const Planform& planform);

} // namespace vrid
