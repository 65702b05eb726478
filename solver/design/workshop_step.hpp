#pragma once

#include "solver/design/design_board.hpp"

namespace vrid {

/// How far a workshop would change the value to see what it does, SI: 0.1 mm of thickness, 1 % of
/// the whole core's, 1 degree, 5 % areal weight, 0.02 fibre volume fraction, 10 % of a constant, 30
/// g/m2 of resin. (common practice, no source)
double workshop_step(const DesignValue& value);

} // namespace vrid
