#pragma once

#include <vector>

#include "mesh/board/eigen_names.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

Eigen::Vector2d point_at(const OutlinePiece& piece, double t);   ///< t in 0..1 [m]
Eigen::Vector2d tangent_at(const OutlinePiece& piece, double t); ///< first derivative by t [m]
Eigen::Vector2d bend_at(const OutlinePiece& piece, double t);    ///< second derivative by t [m]

/// A straight piece from a to b.
OutlinePiece straight_piece(const Eigen::Vector2d& a, const Eigen::Vector2d& b);

/// Parameters 0 = t0 < t1 < ... = 1 such that each chord is within `sag` of the piece [m].
std::vector<double> flat_parameters(const OutlinePiece& piece, double sag);

/// \throws InputError, naming a place, when the outline crosses itself.
void check_no_self_crossing(const Planform& planform);

} // namespace vrid
