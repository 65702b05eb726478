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

    /// \param key of the stack at the disc's middle
    [[nodiscard]] PointResidual at(const StackKey& key, const Disc& disc,
                                   const PointLaminate& point) const;

  private:
    Layup<double> layup_; ///< with the stiffness after hours
    double celsius_;
    StrainField strain_;
    std::vector<char> held_; ///< nothing is
};

} // namespace vrid
