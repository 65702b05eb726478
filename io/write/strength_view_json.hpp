#pragma once

#include "io/write/json_parts.hpp"
#include "io/write/strength_report.hpp"
#include "solver/strength_view.hpp"

namespace vrid {

/// strength_json with a view. In it `grid` {x_mm, right_mm, left_mm, rows}: the planform in cells,
/// columns from x_mm[i] to x_mm[i + 1], in each `rows` of equal width from the right side to the
/// left; each case has `lowest_load` (a list of columns a row: the least load, in the case's unit
/// and either direction, at which a point of the cell gives; null: none) and `through`, the stress
/// through the thickness at `first`, upwards: [{layer, ply, ply_deg, z_mm [bottom, top], stress_MPa
/// {"1", "2", "12": [bottom, top], "13", "23": [bottom, middle, top]}, parts [{material,
/// stress_MPa, strengths_MPa or null}]}]; a ply's parts are its material, or the strips that are
/// smeared into it.
std::string strength_json(const BoardStrength& strength, const StrengthView& view);

/// Adds `grid`, and to each case of `strength` in the document `lowest_load` and `through`.
void add_view(const StrengthView& view, Json& document);

} // namespace vrid
