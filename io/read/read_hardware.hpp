#pragma once

#include "io/read/read_layers.hpp"
#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// Reads [tip_spacer], [edge], [sidewall], [stance], [mass_only] and [rest_shape] into the board.
void read_hardware(Board& board, TableReader& root, const Stock& stock);

} // namespace vrid
