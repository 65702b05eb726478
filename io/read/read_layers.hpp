#pragma once

#include <map>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// What the names of a board file may stand for, and its planform if that could be read.
struct Stock {
    std::map<std::string, Material> materials;
    std::map<std::string, Fabric> fabrics;
    const Planform* planform = nullptr;
    /// Of the file's materials without an expansion, where they stand.
    std::map<std::string, std::string> no_expansion{};
};

/// Reads the [[layer]] tables: names unique, at most one core.
std::vector<Layer> read_layers(TableReader& root, const Stock& stock);

/// Reads the zone or the zones of a layer's table; empty: everywhere.
std::vector<Zone> read_zones(TableReader& table, const Stock& stock);

/// Reads [core].
Core read_core(TableReader table, const Stock& stock);

/// False when the zone has no point on the board, as far as a fine grid of points tells.
bool reaches_board(const Zone& zone, const Planform& planform);

/// An optional x_mm = [from, to] that must reach the board.
std::optional<Range> read_board_range(TableReader& table, const Stock& stock);

} // namespace vrid
