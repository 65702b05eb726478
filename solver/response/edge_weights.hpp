#pragma once

#include "solver/response/edge_curve.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// One condition at rest and what it was computed with.
struct EdgeAtRest {
    const FootedPlate& plate;
    const EdgeSituation& situation;
    const EdgePoints& even;           ///< of the situation's curve
    const Eigen::VectorXd& even_rest; ///< rest heights there [m]
    SnowForce snow;
};

/// What the numbers of edge_numbers owe to the section (in its order; balance nothing), the points
/// in contact held. One adjoint load each: with K the board and S the snow's stiffness at rest,
/// (K + S) mu = dr/du and dr = - mu^T dK u. The numbers are cheap explicit functions of the motion
/// of the edge: dr/du by central differences there, good to 1e-8. The moment of a foot is the work
/// of the board's forces on the motion that turns it, and mu that motion less what the rest
/// follows.
SectionWeights edge_weights(const EdgeAtRest& at, SectionCache& sections, int threads);

} // namespace vrid
