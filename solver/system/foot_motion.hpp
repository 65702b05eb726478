#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/system/model.hpp"

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

/// The feet's free motions [m, rad].
using FreeMotions = Eigen::Matrix<double, free_motions, 1>;

/// Places above the floor: of the flat blank, its own [m].
struct Place {
    double X = 0, z = 0;
};
Place place_at(const PlateModel& model, double x);

/// Small motions from rest, unknowns x foot_motions: the rigid ones of the whole board, those of
/// the front foot on its own nodes only.
Eigen::MatrixXd small_foot_motions(const PlateModel& model, const FootPatches& feet);

// Feet that turn by any angle. A foot pitches by its angle A about its centre, which rises by
// heave + pitch X (+ front heave) and slides along X as in small motion; a node dX before and dZ
// above the centre then has
//   u = dX (cos A - 1) - dZ sin A,   w = dX sin A + dZ (cos A - 1),   bx = -sin A   (centre's
//   apart)

/// Writes the motion of the feet's nodes into u.
void turn_feet(const PlateModel& model, const FootPatches& feet, const FreeMotions& a,
               Eigen::VectorXd& u);

/// Its derivative by a, unknowns x foot_motions (the rolls 0): on the feet's nodes exact; heave and
/// pitch carry the nodes between and beyond the feet along rigidly from where they are in u.
Eigen::MatrixXd bent_foot_motions(const PlateModel& model, const FootPatches& feet,
                                  const FreeMotions& a, const Eigen::VectorXd& u);

/// Small rolls of the rear and the front foot, each about the line along X through its centre where
/// that is now: v = -dZ, w = y, the directors turning along. Unknowns x 2.
Eigen::Matrix<double, Eigen::Dynamic, 2> bent_foot_rolls(const PlateModel& model,
                                                         const FootPatches& feet,
                                                         const FreeMotions& a,
                                                         const Eigen::VectorXd& u);

/// What dead forces on the feet's nodes add to the stiffness of the free motions, as their levers
/// turn: less the second derivative of the forces' work by a [N, N m].
Eigen::Matrix<double, free_motions, free_motions> turn_stiffness(const PlateModel& model,
                                                                 const FootPatches& feet,
                                                                 const FreeMotions& a,
                                                                 const Eigen::VectorXd& force);

} // namespace vrid
