#pragma once

#include "solver/element/director_shell.hpp"

namespace vrid {

/// Strains at the rule's points along a line of motions u + a x: values and derivatives by a at
/// a = 0, exact.
struct StrainLine {
    PointStrains value, first, second;
};

/// \param u, x 5n unknowns
StrainLine strain_line(const ReferenceElement& reference, const ShellTables& tables,
                       const Eigen::VectorXd& u, const Eigen::VectorXd& x);

/// The strains at a = 0 alone.
PointStrains strains_at(const ReferenceElement& reference, const ShellTables& tables,
                        const Eigen::VectorXd& u);

/// Second derivative by a of the element's forces. \param resultants N M Q of its strain_line
Eigen::VectorXd second_forces(const ReferenceElement& reference, const ShellTables& tables,
                              const Eigen::VectorXd& u, const Eigen::VectorXd& x,
                              const StrainLine& resultants);

} // namespace vrid
