#pragma once

#include <string>

#include "io/report/report.hpp"

namespace vrid {

/// The numbers of a CSV text with a title row; cells that are none become nan.
StationTable number_table(const std::string& text);

} // namespace vrid
