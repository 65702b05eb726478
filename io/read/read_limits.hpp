#pragma once

#include <map>
#include <string>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// Reads [limits] of a board file or a suite, if there is one, into `limits` by the number's name.
/// A limit is in the bench unit of its number: the keys carry none. Problems go to the reading.
void read_limits(std::map<std::string, Limit>& limits, TableReader& root);

} // namespace vrid
