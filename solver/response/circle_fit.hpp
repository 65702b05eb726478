#pragma once

#include <Eigen/Core>

namespace vrid {

/// Curvature 1/R of the circle of least sum weight dist^2 to a line of points that runs along x;
/// positive when its centre lies towards +y [1/m]. A straight line is a circle too: 0.
/// \param points 2 x n, at least 3 [m]
double fitted_curvature(const Eigen::Matrix2Xd& points, const Eigen::VectorXd& weight);

} // namespace vrid
