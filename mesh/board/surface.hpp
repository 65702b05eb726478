#pragma once

#include "mesh/board/rest_shape.hpp"

namespace vrid {

/// The surface of heights along the board: of a rest shape, of a mould. Beyond its last stations it
/// lies level, but where it rises towards the tip it goes straight on: a tip that is longer than
/// its heights has no kink, whatever moves either.
inline RestShape surface_of(const Profile& heights) {
    return {heights, smooth_slopes(heights)};
}

} // namespace vrid
