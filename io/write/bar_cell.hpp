#pragma once

#include <string>

#include "io/write/number.hpp"

namespace vrid {

/// What stands in a table's column of bars: "+- 0.02"; "no bar" where nothing tells the error;
/// nothing where there is none.
std::string bar_cell(const BenchQuantity& quantity);

} // namespace vrid
