#pragma once

#include <string>
#include <vector>

#include "solver/response/edge_curve.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// One condition at rest and what it was computed with.
struct EdgeAtRest {
    const FootedPlate& plate;
    const EdgeSituation& situation;   ///< with the tangent's compliance of a bent board
    const EdgePoints& even;           ///< of the situation's curve
    const Eigen::VectorXd& even_rest; ///< rest heights there [m]
    SnowForce snow;
    const EdgeMotion& motion; ///< of the edge
};

/// Loads whose work on a small motion from rest is the change of the numbers: unknowns x numbers,
/// in the order of edge_numbers. These are cheap explicit functions of the motion of the edge: by
/// central differences there, good to 1e-8, the peak in closed form. Of the feet's moments 0: they
/// are no such functions.
Eigen::MatrixXd number_loads(const EdgeAtRest& at);

/// Where loads move the board on its feet, the snow following: (K + S) motion = load, with K the
/// board's tangent and S the snow's stiffness at rest. Unknowns x loads.
/// \param on_feet the loads' work on the feet's free motions, board following
Eigen::MatrixXd follow(const EdgeAtRest& at, Eigen::MatrixXd load, const Eigen::MatrixXd& on_feet,
                       int threads);

/// Forces of the snow's stiffness at rest for a motion of the board, per unknown.
Eigen::MatrixXd snow_answer(const EdgeAtRest& at, const Eigen::MatrixXd& motion);

/// What numbers of one condition owe to everything that a motion does not tell, the points in
/// contact held: with K the board, u its motion and m a number's own, the number changes by m^T dK
/// u.
struct EdgeAdjoint {
    PlateModel model;
    EdgeCompliance compliance;
    TiltedEdge tilted;
    ContactState state;
    SnowForce snow;
    FootLoad load;
    Eigen::Index top = 0;           ///< EdgeSituation::top
    std::vector<std::string> names; ///< of the numbers, as edge_numbers
    Eigen::VectorXd u;              ///< of the whole board
    Eigen::MatrixXd m;              ///< unknowns x numbers; of `balance` 0
};

/// One adjoint load each, in small motion: with K the board and S the snow's stiffness at rest,
/// (K + S) mu = dr/du and dr = - mu^T dK u. The moment of a foot is the work of the board's forces
/// on the motion that turns it, and mu that motion less what the rest follows.
EdgeAdjoint edge_adjoint(const EdgeAtRest& at, int threads);

/// What the numbers of edge_numbers owe to the section (in its order; balance nothing).
SectionWeights edge_weights(const EdgeAdjoint& adjoint, SectionCache& sections, int threads);

} // namespace vrid
