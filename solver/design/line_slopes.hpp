#pragma once

#include <memory>
#include <vector>

#include "solver/design/board_numbers.hpp"
#include "solver/design/edge_shape.hpp"
#include "solver/response/section_weights.hpp"
#include "solver/study.hpp"

namespace vrid {

/// Which bench cases and modes a study answered, and what they owe to the section; and the edge.
struct StudiedNumbers {
    const StudyResult* study = nullptr;            ///< solved with its models kept
    std::shared_ptr<const SectionWeights> weights; ///< one column a number; null: none
    std::vector<std::size_t> numbers;              ///< of BoardNumbers::numbers, one a column
    EdgeOwed edge; ///< of the numbers that are an edge's, in their order; or nothing
};

/// Adds the derivatives by NumbersOptions::lines to the slopes, and the kinks.
///
/// Bench cases and modes: study_shape_slopes; at a kink on meshes of the value less and more
/// 0.2 mm, and their mean. Edge results in small motion: edge_shape_slopes. Numbers without a mesh:
/// central differences. Edge results in large motion or at a kink, the bent board and the shape out
/// of the press: differences of two solves of the value less and more 0.2 mm on meshes moved with
/// their lines, so that nothing of the mesh's own is in them; at a kink about the value less and
/// more 0.4 mm, and their mean.
void add_line_slopes(const DesignBoard& design, const NumbersOptions& options,
                     const StudiedNumbers& studied, BoardNumbers& numbers);

/// Adds where to add width, of the numbers that the study answered (study_outline_density).
void add_outline_density(const DesignBoard& design, const StudiedNumbers& studied, int threads,
                         BoardNumbers& numbers);

} // namespace vrid
