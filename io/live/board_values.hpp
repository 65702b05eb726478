#pragma once

#include <vector>

#include "io/live/file_values.hpp"
#include "io/read/read_board.hpp"
#include "io/write/json_parts.hpp"
#include "solver/design/board_numbers.hpp"

namespace vrid {

/// The design values of a board for a page to show, in the order of the board: "path", "group"
/// ("core", "layer NAME", ...), "part" (what it belongs to), "index", "value" and "unit" as the
/// file writes it, "min", "max" and "accepted" in words, "step" (one workshop step), "scale". Then
/// those that are names: layer.NAME.fabric with "choices". Last the file's own, which have no
/// step.
Json values_json(const NamedBoard& read, const std::vector<FileValue>& of_file);

/// What the page draws: drawing_json with "profile": the core's "x" and "z" every few millimetres
/// and "stations" [x, thickness], and "section" at x [mm] (null where the board has no width).
Json shape_json(const Board& board, double x_mm);

/// Numbers by name: "value", "error", "unit", "shown" and "bar" as tables print them, "slopes"
/// (bench unit per unit of the path, in the order of "paths"), "limit" ("within", "outside",
/// "within the bar", or absent) with "min" and "max".
Json numbers_json(const Board& board, const BoardNumbers& found);

} // namespace vrid
