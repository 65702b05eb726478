#pragma once

#include <string>

#include <Eigen/Core>

#include "solver/system/edge_compliance.hpp"

namespace vrid {

enum class SnowLaw {
    volume, ///< q = hardness d^2 / sin 2t, hardness [N/m3]: volume displaced by a right-angled edge
    linear  ///< q = hardness d, hardness [N/m2]
};

/// Force of the snow per length of edge pressed d deep, at one tilt. q is never negative.
struct SnowForce {
    SnowLaw law = SnowLaw::volume;
    double hardness = 0;                         ///< [N/m3] or [N/m2]
    double tilt = 0;                             ///< [rad]
    [[nodiscard]] double q(double d) const;      ///< [N/m]
    [[nodiscard]] double slope(double d) const;  ///< dq/dd [N/m2]
    [[nodiscard]] double depth(double q) const;  ///< at which it is q >= 0 [m]
    [[nodiscard]] double energy(double d) const; ///< int q dd [N]
};

/// One side of a board tilted: its edge's heights over the snow and the compliance along their
/// gradient. H = H0 + N h, h = R a + C g at the n nodes, g the nodal forces along the gradient.
struct TiltedEdge {
    EdgeLine line;
    EdgePoints points;  ///< the rule's points, at which the snow presses or does not
    double tilt = 0;    ///< [rad]
    Eigen::VectorXd H0; ///< heights at the points, feet unmoved [m]
    Eigen::MatrixXd C;  ///< n x n [m/N]
    Eigen::MatrixXd C_inverse;
    Eigen::MatrixXd R;                                   ///< n x free_motions
    Eigen::Matrix<double, free_motions, free_motions> K; ///< forces on the feet for their motions
    double front_x = 0, rear_x = 0;                      ///< feet [m]
};

/// \param rest heights of the unloaded running surface at the points [m]
TiltedEdge tilt_edge(const EdgeCompliance& edge, const EdgePoints& points,
                     const Eigen::VectorXd& rest, double tilt);

/// The gradient of H in v (w's is cos t): -sin t on the left, sin t on the right.
double gradient_v(Side side, double tilt);

/// Forces on the feet, normal to the running surface and towards the snow.
struct FootLoad {
    double force = 0; ///< of both feet [N]
    double share = 0; ///< of the front foot, 0..1
};

/// Where the board comes to rest.
struct ContactState {
    bool equilibrium = false;
    std::string why;    ///< there is none
    Eigen::VectorXd g;  ///< nodal forces along the gradient [N]
    Eigen::VectorXd a;  ///< the feet's free motions [m, rad]
    Eigen::VectorXd d;  ///< depth at the points, 0 out of the snow [m]
    Eigen::VectorXd q;  ///< line force at the points [N/m]
    int steps = 0;      ///< of Newton's method
    double balance = 0; ///< largest error of the feet's equations over the load, levers in metres
};

/// Least energy of board, load and snow: convex, so there is one state of rest. Semismooth Newton
/// on the points in contact with an exact line search, so that it cannot fail to descend.
/// \param start a state to begin from (a neighbour in a map); without g: a first guess is made
/// \throws SolveError when 200 steps are not enough
ContactState solve_contact(const TiltedEdge& edge, const SnowForce& snow, const FootLoad& load,
                           const ContactState& start = {});

} // namespace vrid
