#pragma once

#include <string>
#include <vector>

#include "io/write/solved_board.hpp"
#include "mesh/board/board.hpp"
#include "solver/response/cross_section.hpp"

namespace vrid {

/// One line per mesh station, by rising x. Columns: x_mm, width_mm, core_thickness_mm, thickness_mm
/// (both on the long axis), mass_per_length_kgpm, EI_Nm2, GJ_Nm2; then for every solved case
/// CASE_deflection_mm (width mean of w) and CASE_twist_deg (slope dw/dy), both at 1 N or 1 deg
/// (written_load). A number that does not exist is an empty cell. Comma, point, "\n".
std::string stations_csv(const SolvedBoard& solved);

/// The columns x_mm, CASE_deflection_mm and CASE_twist_deg of stations.csv from tip to tip, a row
/// every line_step (on boards of usual size a centimetre): what pictures draw, as no mesh line runs
/// beyond the last station of the rest shape.
std::string lines_csv(const SolvedBoard& solved);

/// Width, thickness, EI and GJ from the section itself at even stations between the tips, where
/// the board has a section. \param step between them [m]; a long board: two thousand of them
std::vector<CrossSection> sections_along(const Board& board, double step);

/// The same as a table: what pictures draw, where the stations of a mesh lie far apart. Columns as
/// stations.csv
std::string sections_csv(const Board& board, double step = 0.002);

} // namespace vrid
