#pragma once

#include <span>

#include <Eigen/Core>

#include "solver/element/plate.hpp"

namespace vrid {

/// Derivative of left^T K_e right by the node coordinates, 2 x n [J/m for motions in m and rad]:
/// the unknowns at the nodes and the section at each integration point stay what they are, only
/// the nodes move. What is the derivative of a stiffness by a shape is this for its velocity and
/// the change of the sections at the moved points.
///
/// With L = J^-1 J' the gradient of the velocity, resultants s and strains e: the area changes by
/// tr L; a gradient by -L times itself (so that of membrane and curvature); the shear, whose
/// covariant samples are linear in the coordinates, by -L times itself and by J^-1 times the
/// samples of the velocity.
/// \param X 2 x n node coordinates [m] \param left, right 5n unknowns, node by node
Eigen::Matrix2Xd element_shape_gradient(const ReferenceElement& reference,
                                        const ElementTables& tables, const Eigen::Matrix2Xd& X,
                                        std::span<const PlateStiffness> stiffness,
                                        const Eigen::VectorXd& left, const Eigen::VectorXd& right);

/// The same of left^T M_e right. \param inertia 3 x m: I0 I1 I2 at the integration points
Eigen::Matrix2Xd element_mass_gradient(const ReferenceElement& reference,
                                       const ElementTables& tables, const Eigen::Matrix3Xd& inertia,
                                       const Eigen::VectorXd& left, const Eigen::VectorXd& right);

} // namespace vrid
