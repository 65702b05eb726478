#pragma once

#include "mesh/board/board.hpp"
#include "mesh/mesher.hpp"

/// Area inside the mesh's outline, exact for its polynomial sides [m2].
double outline_area(const vrid::Mesh& mesh);
/// Smallest Jacobian of the degree-p mapping over a fine grid in every quad, relative to the mean
/// of that quad, when p + 1 Lobatto points a side are taken from the geometry.
double smallest_jacobian(const vrid::Mesh& mesh, int degree);
/// Whether quads that share an edge have the very same points on it, and every edge has 1 or 2.
bool sides_agree(const vrid::Mesh& mesh);
/// How many quads have points on both sides of a hard line of the board (merging distance allowed).
int straddling_quads(const vrid::Board& board, const vrid::MeshOptions& options,
                     const vrid::Mesh& mesh);
/// Vertices - edges + quads; 1 for a disc.
int euler_characteristic(const vrid::Mesh& mesh);
/// Greatest distance of the outline sides' points from the true outline [m].
double outline_error(const vrid::Board& board, const vrid::Mesh& mesh);
