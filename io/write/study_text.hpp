#pragma once

#include <string>

#include "io/write/solved_board.hpp"

namespace vrid {

/// What `vrid solve` prints: every number with its error bar, skipped cases with the reason,
/// limits, mesh and solver figures. For an 80-column terminal.
std::string study_text(const SolvedBoard& solved);

} // namespace vrid
