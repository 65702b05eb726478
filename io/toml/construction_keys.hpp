#pragma once

#include <vector>

#include "io/toml/board_keys.hpp"

namespace vrid {

/// Keys of zones, inlays, unequal halves and bevels of the core, and of files to include.
std::vector<BoardKey> construction_keys();

/// The rows with more: each after the last one of its table, a new table after the one that it is
/// in ("layer.zones" after the last of "layer" and what is in it).
std::vector<BoardKey> with_rows(std::vector<BoardKey> rows, const std::vector<BoardKey>& more);

/// The rows with those of tables that have the keys of another: "layer.zones" those of
/// "layer.zone".
std::vector<BoardKey> with_alike_tables(std::vector<BoardKey> rows);

/// The keys of [cure], and those of a material that only a cure asks for.
std::vector<BoardKey> cure_keys();

} // namespace vrid
