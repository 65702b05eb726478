#pragma once

#include "mesh/board/board.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// Adds the board's mass-only items to I0 at the integration points (they sit at z = 0: none to I1,
/// I2): resin over the whole planform, each foot's inserts spread over its foot patch.
void add_mass_only(const Board& board, PlateModel& model);

} // namespace vrid
