#pragma once

#include <functional>

#include "benchmarks/published/plate.hpp"

namespace vrid::published {

/// Solves a loading whose outline is hard supported where `on` holds, on sides of any direction:
/// w and the rotation along the side are 0, both rotations where two directions meet. The rotations
/// of those nodes are turned to the side in K_e. \throws SolveError when the energy norm of the
/// refinement stays above 1e-6 of the solution's.
Bent bent_on_hard_sides(PlateModel model, Loading loading,
                        const std::function<bool(double x, double y)>& on);

} // namespace vrid::published
