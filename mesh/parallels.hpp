#pragma once

#include <vector>

#include "mesh/board/planform.hpp"
#include "mesh/curve.hpp"

namespace vrid {

/// The outline as one loop.
Loop outline_loop(const Planform& planform);

/// The places inside the board at the given distance from the outline: closed curves, none if the
/// board is nowhere that wide. Where the plain offset would cross itself it is cut off, where the
/// outline turns inwards it goes round the corner. Pieces shorter than 1 mm are left out.
std::vector<Loop> parallel_loops(const Planform& planform, const OutlineDistance& outline,
                                 double distance);

} // namespace vrid
