#pragma once

#include <Eigen/Core>

#include "solver/system/model.hpp"

namespace vrid {

using QuadStrains = Eigen::Matrix<double, 8, Eigen::Dynamic>;

/// Strains of a motion in a quad at the points of a reference element, 8 x m: e_x e_y e_xy k_x k_y
/// k_xy g_yz g_xz.
QuadStrains quad_strains(const PlateModel& model, const ReferenceElement& at, int quad,
                         const Eigen::VectorXd& u);
/// At the points of the model's own rule. \param tables quad_tables(model, quad)
QuadStrains quad_strains(const PlateModel& model, const ElementTables& tables, int quad,
                         const Eigen::VectorXd& u);

/// Adds the nodal forces of resultants N M (6 x m, at the model's integration points) to a load.
void add_quad_forces(const PlateModel& model, int quad,
                     const Eigen::Matrix<double, 6, Eigen::Dynamic>& resultant,
                     Eigen::Ref<Eigen::VectorXd> load);

} // namespace vrid
