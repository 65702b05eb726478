#pragma once

#include <array>

#include <Eigen/Core>

#include "solver/system/model.hpp"

namespace vrid {

/// A quad's part of a motion of the whole board: 5 n unknowns, node by node.
Eigen::VectorXd quad_part(const PlateModel& model, int quad,
                          const Eigen::Ref<const Eigen::VectorXd>& u);
/// Adds a quad's nodal forces, 5 n, to those of the whole board.
void add_quad_part(const PlateModel& model, int quad, const Eigen::VectorXd& part,
                   Eigen::Ref<Eigen::VectorXd> force);

/// quad_moments with the quad's nodes elsewhere, 2 x n [m].
std::array<Eigen::MatrixXd, 5> quad_moments(const PlateModel& model, int quad,
                                            const Eigen::Matrix2Xd& nodes);

} // namespace vrid
