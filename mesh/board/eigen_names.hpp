#pragma once

#include <Eigen/Core>

namespace vrid {

// What half of all files write of Eigen, without its name before it.
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::Vector2d;
using Eigen::VectorXd;

} // namespace vrid
