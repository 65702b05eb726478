#pragma once

#include "io/write/solved_board.hpp"
#include "io/write/vtu.hpp"

namespace vrid {

/// A solved case for a viewer, on the flat reference plane, at 1 N or 1 deg (written_load). Fields,
/// symbols as in theory: "displacement [m]" (u, v, w), "rotation [rad]" (bx, by),
/// "membrane strain [-]" (e_x, e_y, e_xy), "curvature [1/m]" (k_x, k_y, k_xy),
/// "shear strain [-]" (g_yz, g_xz), "membrane force [N/m]" (N_x, N_y, N_xy),
/// "moment [N m/m]" (M_x, M_y, M_xy), "shear force [N/m]" (Q_yz, Q_xz), and "twist [rad/m]": how
/// fast dw/dy grows along x, -k_xy / 2 (shear left aside). Of free-modes for each mode "mode 1
/// displacement [m]" with 1 m where it moves most, the other fields being those of the first; of a
/// cooled board the stress before any load (add_stress_fields). Notes: board, case, held, loaded,
/// load; of free-modes frequencies.
QuadGrid case_grid(const SolvedBoard& solved, const CaseResult& result);

/// Where points of the blank stand at rest, 2 x n to 3 x n: the floor's X, y, height. Null: on the
/// flat blank.
Eigen::Matrix3Xd rest_places(const RestShape* rest, const Eigen::Matrix2Xd& position);

/// The board bent, at true positions.
QuadGrid bent_grid(const SolvedBoard& solved, const BentCase& bent);

/// The unloaded board with its section data; z is the rest shape. Fields: "thickness [m]",
/// "core thickness [m]", "mass per area [kg/m2]", "membrane stiffness A [N/m]",
/// "coupling stiffness B [N]", "bending stiffness D [N m]" (11 12 16 22 26 66), "shear stiffness S
/// [N/m]" (yz,yz yz,xz xz,xz). Mark per quad: "layer set", an index into the lines of the note
/// "layer sets", each the layers' names upwards.
QuadGrid board_grid(const SolvedBoard& solved);

} // namespace vrid
