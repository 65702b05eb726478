#pragma once

#include <functional>
#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/cases/degree_run.hpp"
#include "solver/element/plate.hpp"

namespace vrid {

/// Strains of some motions in a quad, 8 x m each (element_strains).
using MotionStrains = std::vector<Eigen::Matrix<double, 8, Eigen::Dynamic>>;
/// Looks at a quad of a solved board; called for different quads from different threads.
using LookAtQuad = std::function<void(int quad, const ElementTables&, const MotionStrains&)>;

/// Motions of a board that nothing holds, under loads in equilibrium: found on six supports that
/// take no force, up to a rigid motion.
class FreeBoard {
  public:
    /// \param factor of the model on determinate_supports; null: an own one is made
    FreeBoard(const PlateModel& model, const EliminationTree& tree,
              std::shared_ptr<const Factor> factor, const SolveMeans& means, Seconds& seconds);

    /// Motions under loads, a column each; a load of nothing moves nothing. Refined once: the loads
    /// are those of stretching, what is looked for is a bending that they leave over, so that a
    /// small rest of force is a large share of it.
    /// \param look sees every quad with the motions as they are returned: the tables of a quad on a
    /// rest shape cost more than all else that is asked of it
    /// \throws SolveError when the residual (CaseSolution) stays above 1e-6
    Eigen::MatrixXd solve(const Eigen::MatrixXd& loads, const LookAtQuad& look, Seconds& seconds);

    [[nodiscard]] double residual() const { return residual_; } ///< the largest of the last solve
    /// Largest force at a support over the largest nodal load, for each column of the last solve.
    [[nodiscard]] const Eigen::VectorXd& reaction() const { return reaction_; }

  private:
    void measure(const Eigen::MatrixXd& loads, const Eigen::MatrixXd& lack,
                 const Eigen::VectorXd& correction);

    const PlateModel& model_;
    SolveMeans means_;
    std::shared_ptr<const Factor> factor_;
    double residual_ = 0;
    Eigen::VectorXd reaction_;
};

} // namespace vrid
