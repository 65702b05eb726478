#pragma once

#include "solver/element/director_shell.hpp"

namespace vrid {

/// Adds the stresses' part of the tangent stiffness. \param resultant N M Q, 8 x m; K 5n x 5n
void add_stress_stiffness(const ReferenceElement& reference, const ShellTables& tables,
                          const Eigen::VectorXd& u, const PointStrains& resultant,
                          Eigen::MatrixXd& K);

} // namespace vrid
