#pragma once

#include "mesh/board/board.hpp"

namespace vrid {

/// The board at one station, as stations.csv and `vrid check` show it.
struct CrossSection {
    double x = 0;               ///< [m]
    double width = 0;           ///< [m]
    double core_thickness = 0;  ///< on the long axis [m]
    double thickness = 0;       ///< on the long axis [m]
    double mass_per_length = 0; ///< resin and inserts not counted [kg/m]
    double EI = 0;              ///< [N m2]
    double GJ = 0;              ///< [N m2]
};

/// The section at station x. At a jump (end of a zone, say) the side towards the middle of the
/// board counts. Needs no mesh. \throws InputError if the board has no width at x.
CrossSection cross_section(const Board& board, double x);

} // namespace vrid
