#pragma once

#include <Eigen/Core>

#include "mesh/board/rest_shape.hpp"

namespace vrid {

/// u v w bx by, their d/dx, their d/dy [m, rad; -, 1/m].
using LocalMotion = Eigen::Matrix<double, 15, 1>;
using Strain8 = Eigen::Matrix<double, 8, 1>; ///< e_x e_y e_xy k_x k_y k_xy g_yz g_xz

/// Strain at a point and its derivative by the local motion.
struct LocalStrain {
    Strain8 s;
    Eigen::Matrix<double, 8, 15> ds;
    double c = 1; ///< the director's normal component; NaN where it would lie flat
};
LocalStrain local_strain(const LocalMotion& q, const RestFrame& frame);

/// sum over the strains of stress times second derivative by the local motion: symmetric.
Eigen::Matrix<double, 15, 15> local_curvature(const LocalMotion& q, const RestFrame& frame,
                                              const Strain8& stress);

} // namespace vrid
