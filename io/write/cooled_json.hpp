#pragma once

#include "io/write/json_parts.hpp"
#include "io/write/solved_board.hpp"

namespace vrid {

/// A cooled board: {"camber": {"value", "unit", "error"}, ..., "concavity": [{"x_mm", "value",
/// "unit", "error"}], "by_layer": [{"layer", "camber", "concavity", "twist"}], "axis": [{"x_mm",
/// "rise_mm"}], "across": [{"x_mm", "points": [{"y_mm", "rise_mm"}]}], "stretch"}.
Json json_of_cooled(const CaseResult& result);

/// [{"x_mm", "wanted_mm", "change_mm", "mould_mm"}], of a board with a mould that exists also
/// "existing_mould_mm"; empty without the case `release`.
Json json_of_mould(const SolvedBoard& solved);

/// The same as a file for who mills the mould, with the board out of a mould that exists where
/// there is one; empty without the case `release`.
std::string mould_csv(const SolvedBoard& solved);

} // namespace vrid
