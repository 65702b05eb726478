#pragma once

#include <vector>

#include <nlohmann/json.hpp>

#include "io/write/board_figures.hpp"
#include "io/write/number.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// Parts that several JSON documents share. Keys keep the order in which they were added.
using Json = nlohmann::ordered_json;

/// {"value", "unit", "error"}: ten significant digits, the bar three. Infinite becomes null.
Json json_of(const BenchQuantity& quantity);
Json json_of(const Quantity& quantity);

/// length, running_length, tail_width, waist_width, nose_width, waist_x, sidecut_radius (left,
/// right; in m), area
Json json_of(const OutlineFigures& outline);

/// {"x", "y"}
Json balance_point(const MassReport& mass);

/// Of a board file: "board.toml:12:3: ..."; the folder is left out, so that the same board gives
/// the same bytes wherever it lies.
Json json_of(const std::vector<Problem>& warnings);

/// Two blanks a level, "\n" at the end; the same bytes for the same content.
std::string json_text(const Json& json);
/// The same without blanks and line ends.
std::string json_line(const Json& json);
/// What cannot be read is_discarded().
Json read_json(const std::string& text);

} // namespace vrid
