#pragma once

#include <optional>

#include "mesh/board/board.hpp"

namespace vrid {

/// A point of the planform at which no layer lies, so that the board has no thickness there [m];
/// nothing if layers cover all of it. Looks at every stack between the stations at which stacks
/// change.
std::optional<Eigen::Vector2d> bare_place(const Board& board);

} // namespace vrid
