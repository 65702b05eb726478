#pragma once

#include <optional>
#include <string>

#include "mesh/planar_map.hpp"

namespace vrid {

/// A place where the cutting could not go on.
struct CutFailure {
    int half_edge; ///< of the face in question
    std::string why;
};

/// Cuts faces until every face has at least three corners and no inner angle above 160 degrees:
/// where a line ends on another, or the outline turns inwards, a straight cut leads on, to another
/// vertex or to a new one on the far side, where it is led on in turn.
std::optional<CutFailure> cut_to_convex(PlanarMap& map);

} // namespace vrid
