#pragma once

#include "io/write/solved_board.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/vtu.hpp"
#include "solver/strength_view.hpp"

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

/// Adds stress and index by ply to a grid whose points are those of the plot. Fields, PLY being a
/// layer's name, of a layer with several plies followed by "ply 1", from below:
/// "stress 1 MPa PLY top" and "bottom", likewise 2 and 12, in the axes of the ply; "stress 13 MPa
/// PLY" and 23 where they are largest in the ply; "failure index LAYER", 1 at failure, "failure
/// mode LAYER", its number being in the notes ("failure mode 5: crack across"), 0 where the layer
/// is not judged. All of these are means over discs; the same names with " raw" behind are the
/// plate's own at the point. nan where the layer is not, and of means inside of what a case holds.
void add_stress_fields(QuadGrid& grid, const StressPlot& plot, const StressFields& fields);

/// A case of a strength for a viewer, on the flat reference plane, at plotted_load: displacement,
/// stress and index, and "lowest load [N]" (or [N m]): the least, in either direction, at which the
/// place gives, its "lowest load mode" and "lowest load layer", whose number is in the
/// notes ("layer 2: lower glass").
QuadGrid strength_grid(const BoardStrength& strength, StrengthFields& fields, std::size_t which);

/// Points a side of what strength_grid plots: those that carry the study's degree exactly.
int plotted_points(const StudyResult& study);

/// All files of `vrid strength --out`: strength.json, drawing.json, strength-CASE.vtu. Between them
/// `between` is called, which may throw to cancel. Returns strength.json's text.
/// \throws OutputError
std::string write_strength(const BoardStrength& strength, const StrengthView& view, bool linear,
                           const std::string& folder, const std::function<void()>& between);

} // namespace vrid
