#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/board_numbers.hpp"
#include "solver/design/shape_change.hpp"
#include "solver/response/section_weights.hpp"
#include "solver/study.hpp"

namespace vrid {

/// Derivatives of numbers of bench cases and modes by values that move lines of the mesh: numbers
/// x lines, SI by SI.
///
/// The mesh moves with its lines (mesh_motion). What a number's energy owes to the nodes' places
/// (node_gradient) meets their velocity; what it owes to the core's thickness meets the thickness's
/// change at the moving points, as the core stays where the file says; the feet's inserts spread
/// over another area; prescribed motions w = phi y and forces spread over a width follow the nodes
/// of their lines: k' = u^T K' u + 2 r . u_D' at unit turn, k' = -k^2 (2 u . f' - u^T K' u) at unit
/// force.
/// \param weights what the numbers owe to the section, by study_weights
/// \param study solved with its models kept
Eigen::MatrixXd study_shape_slopes(const DesignBoard& design, const StudyResult& study,
                                   const SectionWeights& weights,
                                   const std::vector<BoardNumber>& numbers,
                                   const std::vector<LineValue>& lines, int threads);

/// Where to add width: what a move of the outline outwards does to the same numbers, everything
/// that the file places by x and y kept where it is, edge and bands going along. What the nodes'
/// places do is pulled back to hats on the outline's vertices by the motion of the mesh
/// (MeshMotion). OutlineDensity::numbers is left empty.
OutlineDensity study_outline_density(const DesignBoard& design, const StudyResult& study,
                                     const SectionWeights& weights,
                                     const std::vector<BoardNumber>& numbers, int threads);

/// Stations that the cases of these numbers need.
StationsOf stations_of(const std::vector<NumberId>& requests);

} // namespace vrid
