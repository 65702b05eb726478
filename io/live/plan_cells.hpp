#pragma once

#include "io/write/json_parts.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/study.hpp"

namespace vrid {

/// What a page paints over the board seen from above: "cells" of [value, x, y, x, y, x, y, x, y],
/// corners in millimetres, with "unit" and "load".
/// Deflection [mm], or with `twist` the twist rate [deg/m], of the study's only case under its
/// written load. \throws InputError for a case that was not run
Json motion_json(const Board& board, const StudyResult& study, bool twist);

/// The derivative of the only number by the core's thickness: bench unit for a millimetre on a
/// square decimetre. No cells for a number that has none.
Json sanding_json(const BoardNumbers& found);

} // namespace vrid
