#pragma once

#include <string>
#include <vector>

#include "solver/strength/weakest.hpp"

namespace vrid {

/// Strains of a motion at plotting points and at the points of which means are made.
struct PlottedStrain {
    StrainField at_points; ///< n x n evenly spaced points of every quad, xi fastest
    StrainField for_means; ///< as strain_field
};

/// \param u 5 a node [m, rad] \param n points a side
PlottedStrain plotted_strain(const Mesh& mesh, const Numbering& numbering, const RestShape* rest,
                             const Eigen::VectorXd& u, int n);

/// What to plot the stress of.
struct StressState {
    const PlottedStrain& strain;   ///< of the load; ignored if factor is 0
    std::vector<char> held;        ///< a flag a quad: its means leave it out; empty: none is
    double factor = 1;             ///< on the motion
    std::vector<int> signs{1, -1}; ///< directions of the load that `lowest` looks at
    /// What is there before any load, as a mean over a disc and at a plotting point; null: nothing.
    ResidualAt residual = nullptr;
    std::function<PointResidual(Eigen::Index point, int stack, const Eigen::Vector2d& at,
                                const PointLaminate& laminate)>
        residual_at_point = nullptr;
};

/// Stress and index by ply; nan where the ply is not there, and as a mean inside of what is held.
struct StressValues {
    /// One a ply, 8 x points: s1 at bottom and top, s2 at both, s12 at both, then s13 and s23 where
    /// they are largest in the ply [Pa].
    std::vector<Eigen::MatrixXd> stress;
    std::vector<Eigen::VectorXd> index; ///< one a layer: the largest in it, 1 at failure
    std::vector<Eigen::VectorXd> mode;  ///< its mode_code; 0: not judged
};

/// 1 and up; 0 stands for none.
constexpr int mode_code(FailureMode mode) {
    return static_cast<int>(mode) + 1;
}

struct StressFields {
    StressValues averaged, raw;
    Eigen::VectorXd lowest;       ///< factor on the motion at which the place gives first, of means
    Eigen::VectorXd lowest_mode;  ///< mode_code
    Eigen::VectorXd lowest_layer; ///< 1 + its place in StressPlot::layers; 0: none
};

/// The plotting points of a board: n x n evenly spaced in every quad, each with the disc over which
/// its means go. Point e n^2 + j n + i is of quad e, i-th along xi, j-th along eta.
class StressPlot {
  public:
    /// All must outlive this.
    StressPlot(const Layup<double>& layup, const JudgedLayup& judged, const Mesh& mesh, int n);

    [[nodiscard]] const std::vector<std::string>& layers() const { return layers_; }
    /// "upper glass ply 2"; of a layer with one ply the layer's name.
    [[nodiscard]] const std::vector<std::string>& plies() const { return plies_; }
    [[nodiscard]] const Eigen::Matrix2Xd& position() const { return position_; } ///< [m]
    [[nodiscard]] const StackKey& key(int stack) const {
        return sections_.stacks()[static_cast<std::size_t>(stack)];
    }
    StressFields fields(const StressState& state, Criterion criterion);

  private:
    void name_plies();
    void add_name(int layer, std::size_t plies);
    void place_points(const Mesh& mesh);
    void fill(const PointLaminate& point, const PointLoad& load, const PointResidual& before,
              Criterion criterion, Eigen::Index column, StressValues& values) const;
    void find_lowest(const PointLaminate& point, const PointLoad& load, const PointResidual& before,
                     Criterion criterion, const std::vector<int>& signs, Eigen::Index column,
                     StressFields& fields) const;

    const Layup<double>& layup_;
    const JudgedLayup& judged_;
    int n_;
    SectionCache sections_;
    DiscMaker maker_;
    std::vector<std::string> layers_, plies_;
    std::vector<int> layer_of_;            ///< by JudgedPly::layer: in layers_
    std::vector<std::vector<int>> ply_of_; ///< by JudgedPly::layer and number - 1: in plies_
    Eigen::Matrix2Xd position_;
    std::vector<int> stack_;   ///< by point
    std::vector<int> disc_of_; ///< by point: neighbours share theirs; -1: none
    std::vector<Disc> discs_;
};

} // namespace vrid
