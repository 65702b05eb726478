#pragma once

#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/free_value.hpp"

namespace vrid {

enum class FreeFor {
    match,    ///< min and max are required; max_slope and round_to are known
    calibrate ///< min and max default to the physical range; the other two are refused
};

/// Reads the [[free]] tables: at least one; each names at least one number of number_paths, none
/// named twice; the board as it is lies inside the limits.
std::vector<FreeValue> read_free_values(TableReader& root, const Board& board, FreeFor purpose);

/// How many design values are free.
std::size_t path_count(const std::vector<FreeValue>& free);

/// An optional format = 1.
void read_optional_format(TableReader& root);

} // namespace vrid
