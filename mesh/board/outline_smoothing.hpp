#pragma once

#include <vector>

#include "mesh/board/eigen_names.hpp"

namespace vrid {

/// The points of a closed drawn outline freed of the rounding of their coordinates: each moves by
/// less than `tolerance` along x and along y, to where the outline's third derivative by chord
/// length is small against what the drawing shows of it near by. Corners break the smoothness.
/// Deterministic; points that are their own mirror image stay so (up to the solver's rounding).
/// \param points distinct, the first not repeated [m] \param corner one per point
/// \param tolerance [m]; below 1e-9, the accuracy of an outline, the points come back as they are
std::vector<Eigen::Vector2d> smoothed_points(const std::vector<Eigen::Vector2d>& points,
                                             const std::vector<bool>& corner, double tolerance);

} // namespace vrid
