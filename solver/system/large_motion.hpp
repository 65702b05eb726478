#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/element/director_shell.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// A model with what large motion needs of every quad.
struct LargeMotionModel {
    const PlateModel& model; ///< must outlive this
    std::vector<ShellTables> tables;
};

/// Height nowhere: what a model without a rest shape bends from.
RestShape flat_blank();

/// A model without a rest shape bends from its flat blank.
LargeMotionModel large_motion_model(const PlateModel& model, int threads);

/// The board in a bent state.
struct BentState {
    std::vector<Eigen::MatrixXd> K; ///< tangent stiffness, 5n x 5n a quad
    Eigen::VectorXd force;          ///< internal forces, supports ignored [N, N m]
    double least_c = 1;             ///< the least cosine of a director's tilt; not above 0: NaN
    double most_strain = 0;         ///< largest |membrane strain|
    double energy = 0;              ///< [J]
};

/// \param u motion from rest, 5 a node: u v w along X, y, Z; bx, by director components [m, -]
BentState bent_state(const LargeMotionModel& bent, const Eigen::VectorXd& u, int threads);

/// The quads' stiffness K (BentState) times motions of the whole board, a column each.
Eigen::MatrixXd tangent_forces(const PlateModel& model, const std::vector<Eigen::MatrixXd>& K,
                               const Eigen::MatrixXd& u);

/// Strains at the points of every quad's rule, 8 x m each.
using StrainFields = std::vector<PointStrains>;
StrainFields bent_strains(const LargeMotionModel& bent, const Eigen::VectorXd& u, int threads);
/// Their change by a small motion x from the state u.
StrainFields strain_changes(const LargeMotionModel& bent, const Eigen::VectorXd& u,
                            const Eigen::VectorXd& x, int threads);
/// Internal forces alone, as BentState::force.
Eigen::VectorXd bent_forces(const LargeMotionModel& bent, const Eigen::VectorXd& u, int threads);

/// What a line of motions u + a x does to the board: derivatives by a at a = 0.
struct BentLine {
    StrainFields first, second; ///< of the strains
    Eigen::VectorXd forces;     ///< second derivative of the internal forces
};
BentLine bent_line(const LargeMotionModel& bent, const Eigen::VectorXd& u, const Eigen::VectorXd& x,
                   int threads);

} // namespace vrid
