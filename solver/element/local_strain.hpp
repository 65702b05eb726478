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

/// sum over the strains of stress times second derivative by the local motion: symmetric, and 0 but
/// for these.
struct LocalCurvature {
    double xx = 0, xy = 0, yy = 0; ///< of u v w each with itself: d/dx with d/dx, with d/dy ...
    /// Rows: d/dx of u v w, then d/dy; columns: bx by, their d/dx, their d/dy.
    Eigen::Matrix<double, 6, 6> mixed;
    Eigen::Matrix<double, 6, 6> director; ///< bx by, their d/dx, their d/dy
};
LocalCurvature local_curvature(const LocalMotion& q, const RestFrame& frame, const Strain8& stress);

} // namespace vrid
