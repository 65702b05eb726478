#pragma once

#include <string>

#include <Eigen/Core>

#include "solver/system/snow_force.hpp"
#include "solver/system/tilted_edge.hpp"

namespace vrid {

/// Forces on the feet, normal to the running surface and towards the snow.
struct FootLoad {
    double force = 0; ///< of both feet [N]
    double share = 0; ///< of the front foot, 0..1
};

/// The load's work on the feet's free motions.
FreeMotions foot_forces(const TiltedEdge& edge, const FootLoad& load);

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

/// Stiffness of the snow against the edge's nodes along the gradient, n x n [N/m]. \param slope
/// dq/dd at the points [N/m2]
Eigen::MatrixXd snow_stiffness(const TiltedEdge& edge, const Eigen::VectorXd& slope);

/// Least energy of board, load and snow: convex, so there is one state of rest. Semismooth Newton
/// on the points in contact with an exact line search, so that it cannot fail to descend.
/// \param start a state to begin from (a neighbour in a map), used if it is near; else a guess
/// \throws SolveError when 200 steps are not enough
ContactState solve_contact(const TiltedEdge& edge, const SnowForce& snow, const FootLoad& load,
                           const ContactState& start = {});

} // namespace vrid
