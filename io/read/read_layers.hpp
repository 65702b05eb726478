#pragma once

#include <map>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// What the names of a board file may stand for.
struct Stock {
    std::map<std::string, Material> materials;
    std::map<std::string, Fabric> fabrics;
    /// Of the file's materials without an expansion, where they stand.
    std::map<std::string, std::string> no_expansion{};
};

/// Reads the [[layer]] tables.
std::vector<Layer> read_layers(TableReader& root, const Stock& stock);

/// Reads the zone or the zones of a layer's table; empty: everywhere.
std::vector<Zone> read_zones(TableReader& table);

/// Reads [core].
Core read_core(TableReader table, const Stock& stock);

} // namespace vrid
