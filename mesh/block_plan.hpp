#pragma once

#include <string>
#include <vector>

#include "mesh/assembly.hpp"
#include "mesh/blocks.hpp"
#include "mesh/lines.hpp"
#include "mesh/planar_map.hpp"
#include "mesh/quality.hpp"

namespace vrid {

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
