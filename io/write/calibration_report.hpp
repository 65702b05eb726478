#pragma once

#include <string>

#include "mesh/board/board.hpp"
#include "solver/design/calibrate.hpp"

namespace vrid {

/// Fitted values, readings before and after, and what is to be doubted.
std::string calibration_text(const Board& board, const Calibration& calibration);

/// The document calibration.json, format 1: program, board, `values` (path, before, after, sd,
/// prior_sd or null, unit, at_limit), `correlation` (rows in that order), `readings` (number,
/// value, sd, unit, before, after, residual, fits), `indistinct` (a, b, alignment), `untouched`
/// (paths), `open` (step: path, change, unit; sd_left, largest_effect), misfit, solves, warnings.
std::string calibration_json(const Board& board, const Calibration& calibration);

} // namespace vrid
