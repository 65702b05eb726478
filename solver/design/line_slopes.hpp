#pragma once

#include <memory>
#include <vector>

#include "solver/design/board_numbers.hpp"
#include "solver/response/section_weights.hpp"
#include "solver/study.hpp"

namespace vrid {

/// Which numbers a study answered, and what they owe to the section.
struct StudiedNumbers {
    const StudyResult* study = nullptr;      ///< solved with its models kept; null: none
    const SectionWeights* weights = nullptr; ///< one column a number
    std::vector<std::size_t> numbers;        ///< of BoardNumbers::numbers, one a column
};

/// Adds the derivatives by NumbersOptions::lines to the slopes, and the kinks.
///
/// Bench cases and modes: study_shape_slopes; at a kink on meshes of the value less and more
/// 0.2 mm, and their mean. Numbers without a mesh: central differences. Edge results and the shape
/// out of the press: differences of two solves of the value less and more 0.2 mm on meshes moved
/// with their lines, so that nothing of the mesh's own is in them;
/// at a kink about the value less and more 0.4 mm, and their mean.
void add_line_slopes(const DesignBoard& design, const NumbersOptions& options,
                     const StudiedNumbers& studied, BoardNumbers& numbers);

} // namespace vrid
