#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/system/elimination.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// The lowest free vibrations K x = omega^2 M x.
struct Modes {
    Eigen::VectorXd omega2; ///< rising [rad2/s2]
    Eigen::MatrixXd shape;  ///< unknowns x count, x^T M x = 1
    /// Largest ||x - omega^2 K^-1 M x|| over ||x|| in the norm of M, rigid motions taken out.
    double residual = 0;
    Eigen::MatrixXd near; ///< the shapes, and more that are near modes: a start for another model
};

struct ModeOptions {
    SolveMeans means;
    const Factor* factor = nullptr; ///< of K on determinate_supports; null: an own one is made
    Eigen::MatrixXd start;          ///< unknowns x any, near the modes; empty: not known
    /// ||x - omega^2 K^-1 M x|| over ||x|| at the end: frequencies are good to its square, shapes
    /// to it over the distance of the next frequency.
    double tolerance = 1e-7;
};

/// The fixed unknowns, and as many more as the rigid motions that they leave. Such supports take no
/// force from loads in equilibrium: what these do to the board is found on them up to a rigid
/// motion. The added ones are eliminated last, so that a factor shares all else with others; where
/// the unknowns eliminated last do not tell the motions apart (a strip a hair wide), any may be
/// added. \throws SolveError where none do
std::vector<char> determinate_supports(const PlateModel& model, const std::vector<char>& fixed,
                                       const EliminationTree& tree);

/// u, v, turn in the plane; w, turn about y, turn about x: unknowns x 6. Zero energy, on a rest
/// shape up to what the elements' polynomials make of its height.
Eigen::MatrixXd rigid_body_motions(const PlateModel& model);

/// Motions less the rigid motion by which the supports that determinate_supports added move. On a
/// rest shape the elements strain a little in a rigid motion; what is solved on such supports is
/// the board with that strain left out, so that its energy is that of these motions.
Eigen::MatrixXd off_supports(const PlateModel& model, const std::vector<char>& held,
                             const Eigen::MatrixXd& motion);

/// What strains in motions of a board that nothing holds: on the flat blank all, on a rest shape
/// off_supports of the added ones.
Eigen::MatrixXd straining_part(const PlateModel& model, const EliminationTree& tree,
                               const Eigen::MatrixXd& motion);

/// `count` elastic modes of a model with some unknowns held at zero (per unknown; all 0: free).
/// Rigid motions that the supports leave are not among them: they are projected out, exactly.
/// Rotary inertia and the coupling I1 of u, bx and v, by count. Equal frequencies come as often as
/// there are, up to four, whatever the start (block_krylov.hpp).
/// \throws SolveError when the iteration does not converge.
Modes lowest_modes(const PlateModel& model, const std::vector<char>& fixed, int count,
                   const ModeOptions& options = {});

/// Motions of a model on the same mesh at a higher degree: the same fields.
Eigen::MatrixXd at_higher_degree(const PlateModel& from, const PlateModel& to,
                                 const Eigen::MatrixXd& motion);

} // namespace vrid
