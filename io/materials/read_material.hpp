#pragma once

#include <map>
#include <string>

#include "io/toml/table_reader.hpp"
#include "mesh/board/layup.hpp"
#include "mesh/board/material.hpp"

namespace vrid {

/// Reads one [material.NAME] table; checks ranges and |nu12| < sqrt(E1 / E2).
Material read_material(const std::string& name, TableReader table);

/// Reads one [fabric.NAME] table; fibres, resin and ply materials must be among the materials.
Fabric read_fabric(const std::string& name, TableReader table,
                   const std::map<std::string, Material>& materials);

/// The value of a key that names a material (or fabric) of a map: a problem if it is not there.
template <class Entry>
std::string read_name(TableReader& table, std::string_view key,
                      const std::map<std::string, Entry>& entries, const std::string& what);

} // namespace vrid
