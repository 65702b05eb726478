#pragma once

#include "io/write/board_file_entry.hpp"

namespace vrid {

/// What documents say of a condition on the edge.
struct WrittenCondition {
    std::string name; ///< "edge 45 deg 800 N 5 N/mm3"
    double angle_deg = 0, force_N = 0;
    double hardness = 0; ///< [N/mm3], or [N/mm2] of a linear law
    double share = 0;    ///< of the front foot
    std::string side;    ///< "left"
    std::string law;     ///< "volume", "linear"
};
VRID_FIELDS(WrittenCondition, 17, name, angle_deg, force_N, hardness, share, side, law)

} // namespace vrid
