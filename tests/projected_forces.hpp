#pragma once

#include <Eigen/Core>

#include "solver/system/contact.hpp"

namespace vrid::tests {

/// Line force [N/m] at the points of an edge at rest, by projected Gauss-Seidel on the forces at
/// the points, heave and pitch as multipliers of the two equations of balance: shares nothing with
/// Newton's method but the matrices.
Eigen::VectorXd projected_forces(const TiltedEdge& edge, const SnowForce& snow,
                                 const FootLoad& load);

} // namespace vrid::tests
