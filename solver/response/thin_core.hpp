#pragma once

#include <optional>
#include <string>

#include "mesh/board/board.hpp"

namespace vrid {

/// A point at which nothing is left of the core.
struct ThinCore {
    Eigen::Vector2d at;   ///< [m]
    double thickness = 0; ///< of the core before anything is let into it [m]
    double inlaid = 0;    ///< height of the layers let into it there [m]
    std::string layer;    ///< one of them; empty if there is none
};

/// Where a change across the board or inlaid layers leave nothing of the core, the worst place of
/// those looked at: the stations at which stacks or profiles change and some between. Nothing of a
/// sound board, and of one that has neither.
std::optional<ThinCore> thin_core(const Board& board);

} // namespace vrid
