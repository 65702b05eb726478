#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/design/design_board.hpp"
#include "solver/response/edge_weights.hpp"

namespace vrid {

/// Which numbers an edge condition answered, and what they owe.
struct EdgeOwed {
    std::shared_ptr<const EdgeAdjoint> adjoint;
    std::shared_ptr<const SectionWeights> weights; ///< one column a number
    std::vector<std::size_t> columns;              ///< of EdgeAdjoint::names, one a number
};

/// Derivatives of edge numbers by values that move lines of the mesh: numbers x lines, SI by SI;
/// the points in contact held.
///
/// The mesh moves with its lines. With r what a number is of the edge's motion and places, f the
/// snow's forces, R = K u - f - load the lack of rest and m the number's own motion (EdgeAdjoint):
///
///     r' = r_p + m^T K' u + m' . (K u - f) + K m . u' - (m . f)_p - m . load'
///
/// K' u is what the nodes' places and the core under them do (on a rest shape differenced:
/// rest_places_slopes), u' and m' what nodes of a foot do that turns as one piece while they move;
/// r_p and (m . f)_p, the same motion at the moved edge (ordinates, arc lengths, rest heights,
/// slopes, stations of feet and contact lines), are differenced: they are sums along the edge.
Eigen::MatrixXd edge_shape_slopes(const DesignBoard& design, const EdgeOwed& owed,
                                  const std::vector<LineValue>& lines, int threads);

} // namespace vrid
