#pragma once

#include <string>

#include "solver/strength/weakest.hpp"
#include "solver/study.hpp"

namespace vrid {

/// What stands in a cooled board before any load: its plies' stresses Qbar (e + z k - f), with
/// strain and curvature of the case `release` or `cold` and each ply's free strain f.
class CooledStress {
  public:
    /// \param study with the case run and its models kept \param bench "release" or "cold"
    /// \param degree which of the study's two models
    CooledStress(const Board& board, const StudyResult& study, const std::string& bench,
                 std::size_t degree);
    /// The same at the higher degree of a study that kept no models.
    CooledStress(const Board& board, const StudyResult& study, const CaseResult& cooled);

    /// \param key of the stack at the disc's middle
    [[nodiscard]] PointResidual at(const StackKey& key, const Disc& disc,
                                   const PointLaminate& point) const;
    /// At a point itself. \param strain of motion() there
    [[nodiscard]] PointResidual at_point(const StackKey& key, const Eigen::Vector2d& place,
                                         const PointLaminate& point,
                                         const Eigen::Matrix<double, 8, 1>& strain) const;
    /// What of the case's motion strains, 5 a node [m, rad].
    [[nodiscard]] const Eigen::VectorXd& motion() const { return motion_; }

  private:
    void take(const PlateModel& model, const EliminationTree& tree, const Eigen::VectorXd& motion);

    Layup<double> layup_; ///< with the stiffness after hours
    double celsius_;
    Eigen::VectorXd motion_;
    StrainField strain_;
    std::vector<char> held_; ///< nothing is
};

} // namespace vrid
