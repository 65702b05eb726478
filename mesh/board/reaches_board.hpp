#pragma once

#include "mesh/board/layup.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

/// False when the zone has no point on the board, as far as a fine grid of points tells.
bool reaches_board(const Zone& zone, const Planform& planform);

} // namespace vrid
