#pragma once

#include "io/write/solved_board.hpp"

namespace vrid::tests {

/// A plate of two steel quads, 1.0 x 0.2 m, with made-up answers: one flex case, one twist case
/// with w = phi x y (phi = 1 rad/m^2), one skipped case. Degree 3, so 16 points a quad.
SolvedBoard solved_example();

} // namespace vrid::tests
