#pragma once

#include <vector>

#include "mesh/board/board.hpp"

namespace vrid::measure {

/// All derivatives of the static cases by all design values, in solves of these cases, run by run;
/// seconds of the process on one thread.
std::vector<double> derivative_share(const Board& board, int rounds);

} // namespace vrid::measure
