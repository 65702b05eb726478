#pragma once

#include "mesh/board/board.hpp"
#include "mesh/mesh.hpp"

namespace vrid::tests {

enum class MirrorIn { x, y }; ///< x: nose and tail change places; y: left and right do

/// The board in a mirror: outline, stations, zones, every angle of every ply.
Board mirror_image(Board board, MirrorIn axis);

/// The mesh in a mirror, quads and outline still counter-clockwise: the mesh of the mirrored board
/// up to the numbering, so that numbers agree to rounding.
Mesh mirror_image(const Mesh& mesh, MirrorIn axis);

} // namespace vrid::tests
