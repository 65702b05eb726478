#pragma once

#include "solver/bent_edge.hpp"
#include "solver/response/edge_weights.hpp"

namespace vrid {

/// The shown curve of a bent board's edge, and what else its numbers are made of.
struct BentCurve {
    const EdgePoints& even;           ///< its points
    const Eigen::VectorXd& even_rest; ///< rest heights there [m]
    const EdgeCurve& curve;
};

/// What the numbers of edge_numbers owe to the section in a bent board's rest (in their order;
/// balance nothing), the points in contact held.
///
/// At rest t.(F(u, p) - f(u)) = load for every motion t that feet and board allow, F the board's
/// forces and f the snow's. With H = K + S + what forces on turning feet add, K = dF/du and
/// S = -df/du, a number q(u) has its own motion m: H m = dq/du, and changes by -m.F_p. A foot's
/// moment is psi.(f - F), psi the roll where the foot is: dq/du = -(K + S) psi + what psi owes to
/// the feet's motion, and F_p at once goes with -psi. F_p needs the section's change between the
/// strains and their change by m only: strains are free of it.
/// \param stand its plate is left at the tangent of the rest
SectionWeights bent_edge_weights(const BentStand& stand, const BentEdge& edge,
                                 const EdgeCondition& condition, const BentRest& rest,
                                 const BentCurve& shown, SectionCache& sections);

} // namespace vrid
