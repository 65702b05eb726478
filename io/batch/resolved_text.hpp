#pragma once

#include <string>

#include "mesh/board/board.hpp"
#include "mesh/mesher.hpp"

namespace vrid {

/// Counts up when the same input may give other numbers: results of an older one are not reused.
inline constexpr int numerics_version = 6;

/// Everything of a board that its numbers depend on, whatever file, library or CSV it came from,
/// as JSON with numbers in full. Equal texts: equal results.
std::string resolved_text(const Board& board);

/// Everything that its mesh depends on: equal texts, equal meshes.
std::string mesh_text(const Board& board, const MeshOptions& options);

} // namespace vrid
