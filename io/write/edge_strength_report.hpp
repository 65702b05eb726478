#pragma once

#include <string>

#include "io/write/json_parts.hpp"
#include "solver/edge_strength.hpp"

namespace vrid {

/// "angle_deg", "force_N", "hardness", "share", "side", "law", as edge.json has them, behind
/// "name".
Json edge_condition_json(const EdgeCondition& condition);

/// Tables for a terminal, with the notes below them; without the caution.
std::string edge_strength_text(const EdgeStrengthResult& result);

/// What strength.json has of edge conditions, an array: each edge_condition_json, then
/// `no_equilibrium` with the reason, or {first, away, breaks, next, not_judged, residual, slope}: a
/// place is {index, error, x_mm, y_mm, layer, ply, ply_deg, z_mm, mode, at_clamp, at_outline,
/// resolved}. If asked for `to_failure`: {first, breaks}, each {value, unit, error, why_not, slope,
/// place}: the load at which that index is 1, or with `why_not` the largest that was reached.
Json edge_strength_json(const EdgeStrengthResult& result);

} // namespace vrid
