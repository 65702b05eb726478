#pragma once

#include <string>

#include "io/write/json_parts.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// What a report draws of a board without its file, as JSON (format 1), millimetres:
/// `outline`: closed loops of [x, y]; `contact`: the two stations; `feet`: rectangles [x0, y0, x1,
/// y1], rear and front; `zones`: {"layer", "kind": "area" with "points" or "band" with "from", "to"
/// (distances from the outline) and "x"}; `sections`: three stations (rear foot, middle, front
/// foot, or between the contact lines), each "label", "x" and "parts" from right to left: "y":
/// [from, to], "layers" upwards: "name", "material", "angle", "z": [bottom, top].
std::string drawing_json(const Board& board);

/// The outline alone, as above.
Json outline_json(const Planform& planform);

/// One cross-section as above, of any station [m]. \throws InputError where the board has no width
std::string section_json(const Board& board, const std::string& label, double x);

} // namespace vrid
