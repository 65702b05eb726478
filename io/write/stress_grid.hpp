#pragma once

#include "io/write/solved_board.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/vtu.hpp"
#include "solver/strength_view.hpp"

namespace vrid {

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
