#pragma once

#include <array>
#include <span>

#include <Eigen/Core>

#include "solver/element/quadrature.hpp"

namespace vrid {

constexpr int unknowns_per_node = 5; ///< u v w bx by

/// Stiffness of the laminate at an integration point; see Section.
struct PlateStiffness {
    Eigen::Matrix3d A, B, D; ///< [N/m, N, N m]
    Eigen::Matrix2d S;       ///< (yz, xz) [N/m]
};

/// Tables of the element of degree p on the square [-1, 1]^2: n = (p+1)^2 Lobatto nodes, xi
/// fastest; m Gauss points (q x q), xi fastest.
struct ReferenceElement {
    int p = 1, q = 2;
    int n = 4, m = 4;
    Eigen::VectorXd nodes;        ///< p + 1 Lobatto points
    Rule rule;                    ///< q Gauss points
    Eigen::MatrixXd N1, dN1;      ///< 1-D: q x (p+1) values and slopes at the Gauss points
    Eigen::MatrixXd N, dxi, deta; ///< m x n values and derivatives at the Gauss points
    /// Tied shear: the p Gauss points at which a covariant shear is sampled, the nodes' values and
    /// slopes there, p x (p+1), and the interpolation from them to the q Gauss points, q x p.
    Eigen::MatrixXd tie_N, tie_dN, tie_to_rule;
};

/// \param p degree 1..6; p + 1 Gauss points a direction
ReferenceElement reference_element(int p);
/// The same tables at the tensor grid of any points of [-1, 1] (weights 0), for looking at fields.
ReferenceElement reference_element(int p, const Eigen::VectorXd& points);

/// What an element's nodes make of the reference tables.
struct ElementTables {
    Eigen::VectorXd weight; ///< m: rule weight times Jacobian [m2]
    Eigen::MatrixXd G;      ///< 2m x n: d/dx above d/dy at the Gauss points [1/m]
    /// 2m x 3n: tied shear (yz rows above xz rows) from w (first n columns), bx, by.
    Eigen::MatrixXd shear;
    /// On a rest shape, 8m x 5n: all strains from all unknowns, and the other tables are not used;
    /// empty for the flat plate. See director_shell.
    Eigen::MatrixXd strain;
};

/// \param X 2 x n node coordinates [m]. A Jacobian that is not positive is a broken promise of the
/// mesher (assert).
ElementTables element_tables(const ReferenceElement& reference, const Eigen::Matrix2Xd& X);

/// K_e, 5n x 5n, unknowns node by node. \param stiffness one per Gauss point
void element_stiffness(const ReferenceElement& reference, const ElementTables& tables,
                       std::span<const PlateStiffness> stiffness, Eigen::MatrixXd& K);

/// Strains at the Gauss points, 8 x m: e_x e_y e_xy k_x k_y k_xy g_yz g_xz, from 5n unknowns.
Eigen::Matrix<double, 8, Eigen::Dynamic> element_strains(const ReferenceElement& reference,
                                                         const ElementTables& tables,
                                                         const Eigen::VectorXd& u);

/// Resultants N M Q for strains, 8 x m, same order.
Eigen::Matrix<double, 8, Eigen::Dynamic>
element_resultants(std::span<const PlateStiffness> stiffness,
                   const Eigen::Matrix<double, 8, Eigen::Dynamic>& strain);

/// K_e u without K_e: nodal forces 5n in equilibrium with the resultants.
Eigen::VectorXd element_forces(const ReferenceElement& reference, const ElementTables& tables,
                               const Eigen::Matrix<double, 8, Eigen::Dynamic>& resultant);

/// Integrals of N_i N_j times I0, I1, I2, n x n each: M_e has I0's on u v w, I1's between u, bx and
/// v, by, I2's on bx by. \param inertia 3 x m: I0 I1 I2 at the Gauss points [kg/m2, kg/m, kg]
std::array<Eigen::MatrixXd, 3> element_moments(const ReferenceElement& reference,
                                               const ElementTables& tables,
                                               const Eigen::Matrix3Xd& inertia);

} // namespace vrid
