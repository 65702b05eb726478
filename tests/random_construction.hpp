#pragma once

#include "mesh/board/board.hpp"

namespace vrid::tests {

/// The board with what a shop adds to it: drawn patches with three to six corners, some of them let
/// into the core, layers in several zones, unequal halves of the core, strips that end in a fill, a
/// core bevelled on one or both sides. The same for ever by seed; nothing is left of no core.
Board random_construction(Board board, unsigned seed);

} // namespace vrid::tests
