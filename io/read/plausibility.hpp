#pragma once

#include <map>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// What of a board can exist but hardly does: values outside the ranges of boards as they are built
/// (the table in usual_ranges.cpp, a reason each; common practice, no source), and parts that
/// contradict each other. A rectangle or a polygon is a coupon: of it only its layers are judged.
/// The board itself is accepted by all readers and solvers.
/// \param places "file:line:column" by key path of the board file; a message whose key or table is
/// not among them has no place, as for a board made in C++.
/// \return one line each: "core.thickness_mm[0]: found ...; usual: ..."
std::vector<Problem> implausible(const Board& board,
                                 const std::map<std::string, std::string>& places = {});

} // namespace vrid
