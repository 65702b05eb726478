#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/mesh.hpp"

namespace vrid {

/// Places of side k's points among (g + 1)^2 points of a quad, from vertex k to the next.
std::vector<Eigen::Index> side_points(int side, int g);

/// Places of the points of a quad's side among its (g + 1)^2 geometry points, in the direction of
/// the side's mesh edge.
std::vector<Eigen::Index> edge_points(const Mesh& mesh, std::size_t quad, std::size_t side);

/// Fills the inner points of a quad by Coons' surface between its sides. \param points 2 x (g +
/// 1)^2 \param shares g + 1, rising from 0 to 1
void fill_quad(Eigen::Matrix2Xd& points, const std::vector<double>& shares);

} // namespace vrid
