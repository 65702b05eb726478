#pragma once

#include "io/read/read_layers.hpp"
#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// Reads [cure].
Cure read_cure(TableReader table);

/// With a cure every material of the board needs its expansion: a problem for each that has none.
/// Warns of a resin that has both a shrink and a high stress-free temperature, and of moisture that
/// nothing swells with.
void check_expansions(const Board& board, TableReader& root, const Stock& stock);

} // namespace vrid
