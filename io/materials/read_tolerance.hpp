#pragma once

#include <map>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// Reads [tolerance] of a board file: by path or pattern a number above 0 in the unit of the path,
/// or "3 %". Every entry must fit one of the valid paths.
void read_tolerance(std::map<std::string, ToleranceEntry>& tolerance, TableReader& root,
                    const std::vector<std::string>& valid);

/// Reads [tolerance] of a library file: by pattern a value likewise and its source.
void read_default_tolerance(std::map<std::string, ToleranceEntry>& tolerance, TableReader& root);

} // namespace vrid
