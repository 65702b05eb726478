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

/// Preferences among cuts, in units of the sine of the smallest angle that a cut makes.
struct CutStyle {
    double corner = 0.1;      ///< cost of ending at a good corner, which splits its angle
    double loose_end = 0.1;   ///< gain of ending at a vertex that needs a cut itself
    double new_vertex = 0.15; ///< cost of a new vertex that the neighbouring face must lead on
    double age = 0.015;       ///< further cost for each face already crossed
    double short_side = 0.5;  ///< cost of leaving a side much shorter than the cut
};

/// Cuts faces until every face has at least three corners and no inner angle above 160 degrees:
/// where a line ends on another, or the outline turns inwards, a straight cut leads on, to another
/// vertex or to a new one on the far side, where it is led on in turn.
std::optional<CutFailure> cut_to_convex(PlanarMap& map, const CutStyle& style);

} // namespace vrid
