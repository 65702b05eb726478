#pragma once

#include <Eigen/Core>

#include "solver/system/edge_compliance.hpp"

namespace vrid {

/// One side of a board tilted: its edge's heights over the snow and the compliance along their
/// gradient. H = H0 + N h, h = R a + C g at the n nodes, g the nodal forces along the gradient.
struct TiltedEdge {
    EdgeLine line;
    EdgePoints points;           ///< the rule's points, at which the snow presses or does not
    double tilt = 0;             ///< [rad]
    Eigen::VectorXd H0;          ///< heights at the points, feet unmoved [m]
    Eigen::MatrixXd C;           ///< n x n [m/N]
    double added_compliance = 0; ///< of C's diagonal, so that nodes on a foot have one [m/N]
    Eigen::MatrixXd C_inverse;
    Eigen::MatrixXd R;                                   ///< n x free_motions
    Eigen::Matrix<double, free_motions, free_motions> K; ///< forces on the feet for their motions
    double front_x = 0, rear_x = 0;                      ///< feet's stations [m]
    double front_place = 0, rear_place = 0;              ///< the same along the floor [m]
    /// Of a bent board the work of its own forces on the feet's free motions.
    FreeMotions on_feet = FreeMotions::Zero();
};

/// \param rest heights of the unloaded running surface at the points [m]
TiltedEdge tilt_edge(const EdgeCompliance& edge, const EdgePoints& points,
                     const Eigen::VectorXd& rest, double tilt);

/// The gradient of H in v (w's is cos t): -sin t on the left, sin t on the right.
double gradient_v(Side side, double tilt);
/// Forces at a line's nodes along the gradient, one column each, as forces along v, then w.
Eigen::MatrixXd along_vw(Side side, double tilt, const Eigen::MatrixXd& g);
/// The motion of the nodes along the gradient from their v, then w.
Eigen::MatrixXd along_gradient(Side side, double tilt, const Eigen::MatrixXd& vw);

} // namespace vrid
