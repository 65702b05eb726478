#pragma once

#include <string>

#include "io/write/solved_board.hpp"

namespace vrid {

/// What `vrid solve` prints: every number with its error bar, skipped cases with the reason,
/// limits, mesh and solver figures. For an 80-column terminal.
std::string study_text(const SolvedBoard& solved);

/// What each layer does to the shape out of the press, how good the numbers are, and where linear
/// theory ends; empty without such a case.
std::string cooled_text(const SolvedBoard& solved);

/// Where bending in two directions stretches the board too much, one sentence a case.
std::vector<std::string> stretch_warnings(const StudyResult& study);

/// What must be said wherever these numbers are shown.
extern const char* const cooled_caution;

} // namespace vrid
