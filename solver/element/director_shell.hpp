#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/element/local_strain.hpp"
#include "solver/element/plate.hpp"

namespace vrid {

// The plate's element on the board's own rest shape: a shell with a director of unit length,
// exact for rotations below 90 degrees. Unknowns: u v w along the fixed axes X, y, Z; bx, by: the
// director's components along the tangent t = (C, 0, S) and e_y, its normal one is
// c = sqrt(1 - bx^2 - by^2). With a1 = r,x and a2 = r,y by the flat blank's x and y:
//   e = ((a1.a1 - 1)/2, (a2.a2 - 1)/2, a1.a2),     g = (a2.d, a1.d)      (yz, xz)
//   k = (a1.d,x + kap + kap e_x, a2.d,y, a1.d,y + a2.d,x + kap e_xy / 2)
// Rigid motion strains nothing; the terms kap e are those of Koiter and Sanders.

/// Points of a quad with the nodes' values and derivatives there.
struct ShellPoints {
    Eigen::MatrixXd N, Gx, Gy;    ///< points x n
    Eigen::Matrix2Xd xi, eta;     ///< d(x, y)/dxi, d(x, y)/deta, 2 x points
    std::vector<RestFrame> frame; ///< one a point
};

/// Where an element takes its strains. Shear and membrane strain are tied: g_xi and e_11 at p Gauss
/// points in xi times p + 1 Lobatto points in eta, g_eta and e_22 the other way round, e_12 at
/// p x p Gauss points; curvature is taken at the rule's points. Membrane components are along the
/// sides of the quad's middle, one basis for the quad: constant strain stays constant.
struct ShellTables {
    ShellPoints rule, xi_tie, eta_tie, both_tie;
    Eigen::MatrixXd from_xi, from_eta, from_both; ///< m x points: tie points to the rule's
    Eigen::Matrix3d turn;                         ///< (e_11, e_22, 2 e_12) from (e_x, e_y, e_xy)
    Eigen::VectorXd weight;                       ///< m [m2]
};

/// \param X 2 x n node coordinates on the blank [m]
ShellTables shell_tables(const ReferenceElement& reference, const Eigen::Matrix2Xd& X,
                         const RestShape& rest);

using LocalMotions = Eigen::Matrix<double, 15, Eigen::Dynamic>; ///< a point a column
/// \param u 5n unknowns, any size
LocalMotions local_motions(const ShellPoints& points, const Eigen::VectorXd& u);

/// Strains, or stresses, in the order of Strain8: a point a column.
using PointStrains = Eigen::Matrix<double, 8, Eigen::Dynamic>;
/// At each set of points on its own.
struct PointFields {
    PointStrains rule, xi_tie, eta_tie, both_tie;
};
/// The element's strains at the rule's points, m, from the local strains: its ties.
PointStrains tied_strains(const ReferenceElement& reference, const ShellTables& tables,
                          const PointFields& local);
/// The other way: resultants N M Q, 8 x m, times area, collected where their strains are taken.
PointFields point_stresses(const ReferenceElement& reference, const ShellTables& tables,
                           const PointStrains& resultant);

/// Strains at the rule's points.
struct ShellStrains {
    PointStrains strain; ///< 8 x m
    Eigen::MatrixXd ds;  ///< 8m x 5n, by the unknowns; points outside
    double least_c = 1;
};
/// \param u 5n unknowns, any size
ShellStrains shell_strains(const ReferenceElement& reference, const ShellTables& tables,
                           const Eigen::VectorXd& u);

/// The element's tables with ElementTables::strain: small motion from rest. A null rest shape gives
/// the flat plate's.
ElementTables element_tables(const ReferenceElement& reference, const Eigen::Matrix2Xd& X,
                             const RestShape* rest);

} // namespace vrid
