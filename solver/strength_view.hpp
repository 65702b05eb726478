#pragma once

#include <memory>
#include <string>
#include <vector>

#include "solver/strength/ply_profile.hpp"
#include "solver/strength/stress_fields.hpp"
#include "solver/strength_study.hpp"

namespace vrid {

class CooledStress; // solver/strength_residual

/// The planform cut into cells: columns between stations, in each as many rows from the right side
/// to the left.
struct ViewGrid {
    std::vector<double> x;           ///< where columns begin and end, rising [m]
    std::vector<double> right, left; ///< y of the outline there [m]
    int rows = 0;
};

/// What there is to see of a case's strength.
struct CaseView {
    std::string name;
    Eigen::MatrixXd load; ///< rows x columns: the least load at which a point of the cell
                          ///< gives [N, N m]; nan: none does
    std::vector<PlyProfile> through; ///< stress where it gives first, at that load
};

struct StrengthView {
    ViewGrid grid;
    std::vector<CaseView> cases; ///< those that were run
};

/// \param result with its study's models \throws as run_study
StrengthView strength_view(const Board& board, const StrengthResult& result);

/// Load on a case per unit of its motion [N, N m].
double load_per_factor(const CaseResult& result);

/// A load on a case, with its direction.
struct SignedLoad {
    double factor = 0; ///< on the case's motion, below 0: against the case
    double load = 0;   ///< [N, N m], not below 0
};

/// At what load fields are plotted: StrengthOptions::at, else where the case gives first, else the
/// case's own motion.
SignedLoad plotted_load(const CaseStrength& strength, const CaseResult& result);

/// Stress and index of cases of a result all over the board.
class StrengthFields {
  public:
    /// \param board, result, with its study's models, must outlive this \param n points a side
    StrengthFields(const Board& board, const StrengthResult& result, int n);
    ~StrengthFields();
    StrengthFields(const StrengthFields&) = delete;
    StrengthFields& operator=(const StrengthFields&) = delete;
    [[nodiscard]] const StressPlot& plot() const { return plot_; }
    /// At plotted_load; `lowest` as a load [N, N m]. \param which of result.cases, one that was run
    StressFields fields(std::size_t which);

  private:
    const Board& board_;
    const StrengthResult& result_;
    int n_;
    Layup<double> layup_;
    JudgedLayup judged_;
    StressPlot plot_;
    std::unique_ptr<CooledStress> cooled_;
    PlottedStrain cooled_strain_;
};

/// The stress that a cooled board has before any load: no `lowest`.
class ResidualFields {
  public:
    ResidualFields(const Board& board, const StudyResult& study, int n);
    [[nodiscard]] const StressPlot& plot() const { return plot_; }
    StressFields fields(const CaseResult& cooled);

  private:
    const Board& board_;
    const StudyResult& study_;
    int n_;
    Layup<double> layup_;
    JudgedLayup judged_;
    StressPlot plot_;
};

} // namespace vrid
