#pragma once

#include <string>

#include "io/write/solved_board.hpp"

namespace vrid {

/// One line per mesh station, by rising x. Columns: x_mm, width_mm, core_thickness_mm, thickness_mm
/// (both on the long axis), mass_per_length_kgpm, EI_Nm2, GJ_Nm2; then for every solved case
/// CASE_deflection_mm (width mean of w) and CASE_twist_deg (slope dw/dy), both at 1 N or 1 deg
/// (written_load). A number that does not exist is an empty cell. Comma, point, "\n".
std::string stations_csv(const SolvedBoard& solved);

} // namespace vrid
