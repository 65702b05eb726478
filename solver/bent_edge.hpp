#pragma once

#include "solver/edge_condition.hpp"
#include "solver/response/edge_curve.hpp"
#include "solver/system/large_motion.hpp"

namespace vrid {

/// A board on its two feet in large motion: `plate` goes from tangent to tangent.
struct BentStand {
    FootedPlate& plate;
    const LargeMotionModel& bent; ///< of the plate's model
    SolveMeans means;
};

/// The running edge that comes down on the snow.
struct BentEdge {
    EdgeLine line;        ///< with its chords
    EdgePoints points;    ///< at which the snow presses
    Eigen::VectorXd rest; ///< rest heights there [m]
};

/// Where a bent board comes to rest.
struct BentRest {
    Eigen::VectorXd u;                   ///< motion from rest, as BentState's
    FreeMotions a = FreeMotions::Zero(); ///< of the feet
    ContactState contact;                ///< `a` is the last step's
    EdgeMotion motion;                   ///< of the edge
    FootNeeds feet;
    int steps = 0;          ///< of Newton's method
    double least_c = 1;     ///< as BentState
    double most_strain = 0; ///< as BentState
    double energy = 0;      ///< of the board alone [J]
};

/// Least energy of the board in large motion, load and snow. Newton's method on the board: each
/// step is the contact problem of a linear board, that of the tangent at the state reached, so the
/// points in contact are inside; the first step, from the board at rest, is the linear answer. The
/// feet turn by finite angles. Where it does not get there at once, the load is laid on in parts.
/// \param start a rest to begin from, another condition's or in_finer_nodes; the unloaded board
/// where it has no motion or does not lead to a rest
/// \returns a contact without equilibrium when the board tips over
/// \throws SolveError with the part of the load reached when there is no way on
BentRest rest_bent(const BentStand& stand, const BentEdge& edge, const EdgeCondition& condition,
                   const BentRest& start = {});

/// A condition's rest at a lower degree on the same mesh as a start at the stand's.
BentRest in_finer_nodes(const BentStand& stand, const BentEdge& edge,
                        const EdgeCondition& condition, const PlateModel& coarse, BentRest rest);

/// What the board's own forces lack at a rest of those that snow and feet put on it, per unknown:
/// snow's less the board's [N, N m].
Eigen::VectorXd on_board(const BentStand& stand, const BentEdge& edge,
                         const EdgeCondition& condition, const BentRest& rest);

} // namespace vrid
