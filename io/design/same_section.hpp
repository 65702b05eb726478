#pragma once

#include <string>

#include "mesh/board/board.hpp"

namespace vrid {

/// The first place where the sections of two boards differ by more than the rounding of numbers to
/// twelve digits; empty if nowhere. Names of fabrics may differ, what they are made of may not.
/// Materials and fabrics that no layer or part uses do not count.
std::string section_difference(const Board& a, const Board& b);

} // namespace vrid
