#pragma once

#include <vector>

#include "solver/edge.hpp"

namespace vrid::measure {

/// A map of 100 edge conditions against one of them, in turn; seconds of the process on one thread.
struct EdgeMapTime {
    std::vector<double> one, hundred, ratio;
    EdgeResult map; ///< of the last run
};
EdgeMapTime edge_map_time(const Board& board, int rounds);

} // namespace vrid::measure
