#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/system/edge_line.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/foot_motion.hpp"

namespace vrid {

/// A board on its two feet, factored with both held, as it rests or bent.
struct FootedPlate {
    PlateModel model;
    FootPatches feet;
    std::shared_ptr<const EliminationTree> tree; ///< the factor points to it
    Factor factor;
    Eigen::MatrixXd motion; ///< unknowns x foot_motions: the board following each of them
    Eigen::Matrix<double, foot_motions, foot_motions> K; ///< forces on the feet for them [N, N m]
    std::vector<Eigen::MatrixXd> tangent; ///< stiffness a quad of the bent board; empty: at rest
};

/// The order of elimination for a board on feet with these centres [m].
EliminationTree footed_tree(const Numbering& numbering, double rear_x, double front_x);

/// \param tree footed_tree of the model; null: it is made
/// \throws SolveError when a foot has no node or the solution is not accurate
FootedPlate footed_plate(PlateModel model, FootPatches feet,
                         std::shared_ptr<const EliminationTree> tree, SolveMeans means);

/// The same, not factored yet and following no foot: bend_plate must come before anything else.
FootedPlate held_plate(PlateModel model, FootPatches feet,
                       std::shared_ptr<const EliminationTree> tree);

/// The plate with another stiffness of its quads, that of a bent state: a small motion from there.
/// \param motions bent_foot_motions of that state
/// \throws SolveError if a pivot is not positive, or as footed_plate
void bend_plate(FootedPlate& plate, std::vector<Eigen::MatrixXd> tangent, Eigen::MatrixXd motions,
                SolveMeans means);

/// What one running edge does under forces at its nodes while the feet move by a:
/// (v, w) = R a + C (f_v, f_w), slopes likewise, forces on the feet P = K a - R^T (f_v, f_w).
struct EdgeCompliance {
    EdgeLine line;
    FootPatches feet;
    bool curved = false;                    ///< on the rest shape
    double rear_place = 0, front_place = 0; ///< of the feet, along the floor: levers of pitch [m]
    Eigen::MatrixXd C;                      ///< 2n x 2n, v of all nodes, then w, symmetric [m/N]
    Eigen::MatrixXd R;                      ///< 2n x foot_motions
    Eigen::Matrix<double, foot_motions, foot_motions> K;
    Eigen::MatrixXd slope_C, slope_R; ///< rows: columns of edge_slope_loads; columns as C and R;
                                      ///< none of a bent board
};

/// One pass through the factor for all of C and the slopes. \param chords EdgeLine::chords \throws
/// SolveError when a combination of the columns leaves a residual or moves otherwise than C says
EdgeCompliance edge_compliance(const FootedPlate& plate, Side side, int threads,
                               const std::vector<double>& chords = {});

/// Loads per unknown from forces at the edge's nodes along v, then w: unknowns x 2n.
Eigen::SparseMatrix<double> nodal_loads(const PlateModel& model, const EdgeLine& line);

/// Motion of the whole board for forces at the edge's nodes (columns, 2n) and the feet's motions
/// (columns, foot_motions): unknowns x columns.
Eigen::MatrixXd board_motion(const FootedPlate& plate, const EdgeLine& line,
                             const Eigen::MatrixXd& force, const Eigen::MatrixXd& motion,
                             int threads);

} // namespace vrid
