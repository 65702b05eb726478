#pragma once

#include "solver/laminate/layup.hpp"
#include "solver/response/section_weights.hpp"

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
///
/// EI: e_x and k_x the same over the width, N_y = N_xy = M_y = M_xy = 0 at each y, resultant N_x =
/// 0: EI = int D* dy - (int B* dy)^2 / int A* dy. GJ: the least energy, times two, of all states of
/// strain that do not change along x, at unit twist rate, shear included and edges free (so the
/// board may stretch and bend as it likes while it twists).
CrossSection cross_section(const Board& board, double x);
CrossSection cross_section(const Layup<double>& layup, double x);

/// What EI (number 0) and GJ (1) at station x owe to the sections there: both are least energies,
/// so the weights are those of their strains.
SectionWeights cross_section_weights(const Layup<double>& layup, double x);

} // namespace vrid
