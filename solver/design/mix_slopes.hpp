#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/shape_change.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// What numbers owe to the mix of smeared strips (strip_mix): it changes when the outline, a
/// sidewall or a strip's end moves. Nothing where the core is of one material or its strips are
/// resolved.
class MixSlopes {
  public:
    /// \param weights of the board's sections
    MixSlopes(const Board& board, const SectionWeights& weights);
    /// Per number, SI per unit of the value.
    [[nodiscard]] Eigen::VectorXd of(const ShapeChange& change) const;

    /// Per number, SI per m: what a metre of a place's move outwards does.
    struct AtOutline {
        OutlinePlace place;
        Eigen::VectorXd by;
    };
    /// By moves of the outline outwards along its normal: the sum over these places, as a rule some
    /// hundreds. Empty where the pattern repeats and the outline does not count.
    [[nodiscard]] std::vector<AtOutline> at_outline(const Board& board) const;

  private:
    /// Of a stretch of one half, all its places together: strips x numbers, per share of the strip.
    using Owed = std::vector<Eigen::MatrixXd>;
    Eigen::Index numbers_;
    Owed left_, right_; ///< empty: nothing; right_ where it is not as left
};

} // namespace vrid
