#pragma once

#include <string>
#include <vector>

#include "io/write/result_document.hpp"
#include "io/write/solved_board.hpp"

namespace vrid {

/// The document result.json, format 1. Bench units; every quantity is {"value", "unit", "error"},
/// error being the half width of its bar (0: none known). Keys in this order:
///
// clang-format off
/// | key             | what it holds |
/// |-----------------|---------------|
/// | `format`        | 1 |
/// | `program`       | name and version |
/// | `board`         | `name`, and `hash` of the board file's content |
/// | `outline`       | lengths and widths [mm], `sidecut_radius` by side [m], `area` [m2] |
/// | `mass`          | of the whole board, mass-only items counted |
/// | `balance_point` | `x`, `y` in the board file's axes |
/// | `cases`         | by case: its numbers (`stiffness`; `mode 1` ...), in the order of the table |
/// | `skipped`       | by case, also at a travel: why it was not run or reached |
/// | `limits`        | by number: `min`, `max`, the quantity, `exceeded`, `resolved` |
/// | `mesh`          | `elements`, `degree`, `unknowns` |
/// | `solver`        | `residual`: the largest relative one; `rel_error_met` |
/// | `warnings`      | what the user should know; of the board file with its place first |
/// | `files`         | names of the files written with it |
/// | `seconds`       | by phase: read, mesh, sections, assemble, factor, solve, write |
///
// clang-format on
/// Two runs on one machine give the same bytes, `seconds` aside.
std::string result_json(const SolvedBoard& solved, const std::vector<std::string>& files,
                        double seconds_write);

FoundCase found_cooled(const CaseResult& result);
/// Not rounded, which is for who writes it; empty without the case `release`.
std::vector<FoundMould> found_mould(const SolvedBoard& solved);

/// The mould as a file for who mills the mould, with the board out of a mould that exists where
/// there is one; empty without the case `release`.
std::string mould_csv(const SolvedBoard& solved);

} // namespace vrid
