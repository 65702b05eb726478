#pragma once

#include <string>
#include <vector>

#include "io/write/board_figures.hpp"
#include "io/write/held_limits.hpp"
#include "io/write/limits.hpp"

namespace vrid {

/// What `vrid check` prints of a board: tables for an 80-column terminal.
std::string board_text(const BoardFigures& figures, const Verdicts& verdicts);

/// The limits with their numbers; empty if there are none.
std::string limits_text(const Verdicts& verdicts);
std::string held_limits_text(const std::vector<HeldLimit>& limits);

/// What `vrid check --json` prints: {"format", "program", "boards": [...]}, each board with name,
/// hash, outline, mass, balance_point, mass_by_material, stations (label, x, width, core_thickness,
/// thickness, mass_per_length, EI, GJ, layers upwards: name, material, angle, thickness, y ranges),
/// limits. Quantities as in result.json.
std::string boards_json(const std::vector<BoardFigures>& boards,
                        const std::vector<Verdicts>& verdicts);

} // namespace vrid
