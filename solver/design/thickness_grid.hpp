#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/laminate/layup.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

using SectionColumns = Eigen::Matrix<double, section_terms, Eigen::Dynamic>;

/// Chebyshev points of the core thickness, rising: a function known there is known between them.
struct ThicknessGrid {
    ThicknessGrid(double from, double to, int count);
    /// Interpolation weights: rows thickness, columns points.
    [[nodiscard]] Eigen::MatrixXd to_values(const Eigen::VectorXd& thickness) const;

    double from = 0, to = 0; ///< [m]
    Eigen::VectorXd points;  ///< [m]
};

/// One stack of layers: its places in the sets, and what is gathered of them at the grid.
struct StackShare {
    StackKey key;
    std::vector<std::vector<Eigen::Index>> places; ///< per set
    ThicknessGrid grid;                            ///< of the core's thickness at its places
    Eigen::MatrixXd gathered; ///< section_terms x (points x numbers), number by number
    SectionColumns by_core;   ///< section by core thickness at the points
};

/// A board's layup, and the stacks of some sets of weights, each with a grid that gives its section
/// to 1e-11 of its largest. A grid spans the thicknesses of its own stack only: where a layer is
/// let into the core, another's may be less than the inlay.
struct StackFrame {
    Layup<double> layup;
    std::vector<StackShare> shares; ///< each stack once
    Eigen::Index numbers = 0;       ///< of all sets
};

/// \param board must outlive the answer
/// \param sets of one pace and one temperature
StackFrame stack_frame(const Board& board, const std::vector<const SectionWeights*>& sets);

} // namespace vrid
