#pragma once

#include <string>

namespace vrid {

/// How a design value scatters from board to board.
struct Tolerance {
    std::string path; ///< one design value: "core.thickness_mm[3]"
    double sd = 0;    ///< one standard deviation, above 0, SI
    std::string
        source; ///< where it stands: "[tolerance] of the board", or the library's own source
};

} // namespace vrid
