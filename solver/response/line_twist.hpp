#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/laminate/section.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// A stretch across the board that has one section.
struct PartSection {
    double y_from, y_to; ///< [m]
    Section<double> section;
};

/// e_x e_y e_xy k_x k_y k_xy g_yz g_xz: A B; B D on membrane and curvature, S on the shears.
Eigen::Matrix<double, 8, 8> stiffness8(const Section<double>& section);

/// GJ of a line across the board [N m2]: the least energy, times two, of all states of strain that
/// do not change along x, at twist rate 1, edges free. `parts` from right to left:
///
///   u = x (e0 + c0 y) + u(y)        e_x = e0 + c0 y    e_y = v'     e_xy = u'
///   v = -c0 x^2 / 2 + v(y)          k_x = k0           k_y = by'    k_xy = bx' - 1
///   w = x y - k0 x^2 / 2 + w(y)     g_yz = w' + by     g_xz = y + bx
///   bx = k0 x + bx(y)   by = -x + by(y)
///
/// Line elements of degree 8, no wider than 20 mm: the twisting moment falls to zero at the free
/// edge within a few millimetres, which degree 8 follows over 20. \throws SolveError if singular
double twist_stiffness(const std::vector<PartSection>& parts);

/// What GJ owes to the sections, to first order: 24 weights a part (see SectionWeights). GJ is a
/// least energy, so they are those of its strains.
Eigen::VectorXd twist_weights(const std::vector<PartSection>& parts);

} // namespace vrid
