#pragma once

#include <vector>

#include "mesh/board/drawn_outline.hpp"

namespace vrid::tests {

/// A parametric board of ordinary shape drawn from a seed.
PlanformShape ordinary_shape(unsigned seed);

/// Points on a planform at even steps of its length, every coordinate rounded to `decimals` digits
/// of a millimetre (negative: not at all), the same point twice in a row left out.
DrawnOutline drawn(const Planform& planform, int points, int decimals);

/// Half the last digit [m].
double rounding(int decimals);

/// A random drawing: 24 to 400 points, 0 to 3 decimals, symmetric or bent to one side.
struct RandomDrawing {
    DrawnOutline outline;
    int decimals = 0;
    double running_length = 0; ///< [m]
    bool symmetric = false;
};
RandomDrawing random_drawing(unsigned seed);

} // namespace vrid::tests
