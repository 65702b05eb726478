#pragma once

#include <functional>
#include <vector>

#include <Eigen/Core>

#include "mesh/mesh.hpp"

namespace vrid::tests {

/// Quads between the lines x and y (both rising), put at `place` of their points: a mesh by hand,
/// without the mesher. Quad j (columns) + i lies in column i, row j; its lines are the stations x.
Mesh grid_mesh(const std::vector<double>& x, const std::vector<double>& y, int geometry_degree = 1,
               const std::function<Eigen::Vector2d(const Eigen::Vector2d&)>& place = nullptr);

} // namespace vrid::tests
