#pragma once

#include <string>

namespace vrid {

/// A plain board to begin with, as a board file.
std::string start_board();

} // namespace vrid
