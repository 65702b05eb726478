#pragma once

#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/mesh.hpp"

namespace vrid {

struct MeshOptions {
    std::vector<double> stations;      ///< extra lines across the board that cases need [m]
    std::vector<double> outline_bands; ///< extra lines parallel to the outline, by distance [m]
    double max_size = 0.06;            ///< longest wanted side of a quad [m]
    int geometry_degree = 6;           ///< 1..6
};

/// Meshes the board's planform with quadrilaterals that conform to everything at which the section
/// jumps or kinks: edge, flange and sidewall bands and their ends, zones, core stations, tip
/// spacer, resolved strips, foot patches, contact stations, x = 0 where asked, and the options'
/// lines.
///
/// The lines divide the planform into faces, cuts divide these into four-sided blocks, and Gmsh
/// places the points inside a block. Lines within 0.05 mm are one; smooth core stations within 3 mm
/// of another line, or at less than 25 degrees to the outline, are left out. Where a line meets
/// others so that no good quad fits, the mesh does not follow it there and Mesh::notes says so: the
/// section then jumps inside those quads. A board and lines that are their own mirror image in y
/// get a mesh that is. Deterministic. One call at a time in a process (Gmsh has global state; a
/// mutex guards it).
/// \throws SolveError when a scaled Jacobian of 0.1 cannot be reached, naming the place;
/// std::bad_alloc where the dense library finds no room for a buffer (mesh/dense_memory)
Mesh mesh_planform(const Board& board, const MeshOptions& options);

/// Structured quads on a four-sided straight patch, for checks: corners counter-clockwise,
/// nx x ny quads; `distort` in 0..0.4 moves inner vertices by a fixed pattern, at most by half that
/// share of a cell each way.
Mesh mesh_patch(const std::array<Eigen::Vector2d, 4>& corners, int nx, int ny, double distort = 0);

} // namespace vrid
