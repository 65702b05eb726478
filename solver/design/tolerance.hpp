#pragma once

#include <string>

#include "solver/design/design_kinds.hpp"

namespace vrid {

/// How a design value scatters from board to board.
struct Tolerance {
    DesignId value;
    double sd = 0;      ///< one standard deviation, above 0, SI
    std::string source; ///< where it stands: of the board, or the material library's own source
};

} // namespace vrid
