#pragma once

#include <string>

#include "io/report/report.hpp"

namespace vrid {

/// The numbers of a CSV text with a title row; cells that are none become nan. `file` names it in
/// errors. \throws InputError for a row with more or fewer cells than the title
StationTable number_table(const std::string& text, const std::string& file);

} // namespace vrid
