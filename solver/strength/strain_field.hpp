#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/system/model.hpp"

namespace vrid {

/// Strains of a motion at k x k Lobatto points of every quad, xi fastest: e_x e_y e_xy k_x k_y k_xy
/// g_yz g_xz [-, 1/m].
using StrainField = std::vector<Eigen::Matrix<double, 8, Eigen::Dynamic>>;
constexpr int strain_points = 6; ///< k: exact up to degree 5 on straight-sided quads

/// Their places along a side, -1 to 1.
const Eigen::VectorXd& strain_nodes();

/// \param u 5 a node [m, rad]
StrainField strain_field(const PlateModel& model, const Eigen::VectorXd& u);
/// The same of a motion of any size, on the rest shape or from the flat blank.
StrainField bent_strain_field(const PlateModel& model, const Eigen::VectorXd& u);

} // namespace vrid
