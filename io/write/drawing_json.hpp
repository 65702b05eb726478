#pragma once

#include <string>

#include "io/write/drawing.hpp"
#include "io/write/json_parts.hpp"

namespace vrid {

/// drawing.json (format 1), millimetres: `outline`: a closed loop of [x, y]; `contact`: the two
/// stations; `feet`: rectangles [x0, y0, x1, y1], rear and front; `zones`: {"layer", "kind": "area"
/// with "points" or "band" with "from", "to" (distances from the outline) and "x"}; `sections`:
/// three stations, each "label", "x" and "parts": "y": [from, to], "layers" upwards: "name",
/// "material", "angle", "z": [bottom, top]; `layup`: {"layer", "of", "where", "thickness_mm" (null
/// of the core), "plies": [{"of", "angle_deg", "gsm" or "mm"}], "resin", "resin_gsm"}.
Json json_of(const Drawing& drawing);
Json json_of(const DrawnSection& section);

/// The other way. \param file names it in errors \throws InputError, or the JSON library's own
/// type, when it is damaged
Drawing drawing_in(const Json& json, const std::string& file);

/// The file of a board.
std::string drawing_json(const Board& board);

} // namespace vrid
