#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/assembly.hpp"
#include "mesh/blocks.hpp"
#include "mesh/lines.hpp"
#include "mesh/planar_map.hpp"
#include "mesh/quality.hpp"

namespace vrid {

/// A place where the cutting could not go on.
struct CutFailure {
    int half_edge; ///< of the face in question
    std::string why;
};

/// Splits every curve between two vertices that turns by more than 110 degrees, or by more than 45
/// to the right as where the outline turns inwards, at even shares of its turn: quads do not go
/// round it, and not every face outside of such a turn has a point that sees all of its sides.
void split_far_turns(PlanarMap& map);

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

/// Sine of the smallest corner angle that a mesh may have.
constexpr double smallest_corner_sine = 0.1;

/// Blocks that make a good mesh, and what it took to get there.
struct BlockPlan {
    PlanarMap map; ///< what the blocks refer to
    BlockMesh blocks;
    std::vector<BlockGrid> grids;   ///< Coons' surfaces
    std::vector<std::string> notes; ///< lines that are not followed everywhere
};

/// Finds blocks along the lines of which every quad is good: tries several ways of cutting; if
/// none will do, gives up stretches of the least important lines at the worst quad, one by one.
/// \throws SolveError, naming the place, when that does not help.
BlockPlan plan_blocks(const Planform& planform, const MeshLines& lines, const MeshOptions& options);

} // namespace vrid
