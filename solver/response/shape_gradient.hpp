#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/response/section_weights.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// What numbers owe to the places of a model's nodes, the sections at the integration points kept:
/// the change of number r is the sum over nodes and directions of the gradient times the move.
/// 2 nodes x numbers, x then y of each node.
using NodeGradient = Eigen::MatrixXd;

/// Of factor * left^T K right of each energy term, and of the same with M of each inertia term;
/// supports ignored. On a rest shape, where it is not written down, it is differenced quad by quad
/// (some sixty evaluations each): for pictures; one velocity is had cheaper from term_sums.
NodeGradient node_gradient(const PlateModel& model, const std::vector<EnergyTerm>& energy,
                           const std::vector<EnergyTerm>& inertia, Eigen::Index numbers,
                           int threads);

/// The sum itself of each number over its terms: factor * left^T K right and the same with M. Of a
/// model on a rest shape it is what is differenced for one velocity. \param quads over which it
/// goes
Eigen::VectorXd term_sums(const PlateModel& model, const std::vector<int>& quads,
                          const std::vector<EnergyTerm>& energy,
                          const std::vector<EnergyTerm>& inertia, Eigen::Index numbers,
                          int threads);

} // namespace vrid
