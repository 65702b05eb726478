#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/system/edge_line.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

/// The two rigid foot patches: their centres and nodes.
struct FootPatches {
    double rear_x = 0, front_x = 0; ///< [m]
    std::vector<int> rear, front;   ///< node numbers
};

/// Generalised motions of the feet. The first two and the roll carry the whole board along without
/// strain; the others move the front foot alone, the rear one held.
enum FootMotion : int {
    motion_heave,               ///< w = 1
    motion_pitch,               ///< w = x, bx = -1; on a rest shape also u by the height
    motion_front_heave,         ///< w = 1
    motion_front_pitch,         ///< w = x - front_x, bx = -1
    motion_front_slide,         ///< u = 1
    free_motions,               ///< as many can move; the feet hold the two below
    motion_roll = free_motions, ///< w = y, by = -1, each foot about its middle at its rest height
    motion_front_roll,          ///< the same of the front foot
    foot_motions
};

/// A board on its two feet, factored with both held.
struct FootedPlate {
    PlateModel model;
    FootPatches feet;
    std::shared_ptr<const EliminationTree> tree; ///< the factor points to it
    Factor factor;
    Eigen::MatrixXd motion; ///< unknowns x foot_motions: the board following each of them
    Eigen::Matrix<double, foot_motions, foot_motions> K; ///< forces on the feet for them [N, N m]
};

/// The order of elimination for a board on feet with these centres [m].
EliminationTree footed_tree(const Numbering& numbering, double rear_x, double front_x);

/// \param tree footed_tree of the model; null: it is made
/// \throws SolveError when a foot has no node or the solution is not accurate
FootedPlate footed_plate(PlateModel model, FootPatches feet,
                         std::shared_ptr<const EliminationTree> tree, SolveMeans means);

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
    Eigen::MatrixXd slope_C, slope_R; ///< rows: columns of edge_slope_loads; columns as C and R
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
