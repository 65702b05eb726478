#pragma once

#include "mesh/board/board.hpp"

namespace vrid::tests {

/// A strip of glass about a poplar core, with feet; the upper face is at an angle [rad], so that
/// left and right differ.
Board glass_strip(double angle);

} // namespace vrid::tests
