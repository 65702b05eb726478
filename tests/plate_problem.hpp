#pragma once

#include <functional>
#include <vector>

#include "mesh/mesher.hpp"
#include "solver/degree_run.hpp"

namespace vrid::tests {

/// Isotropic plate of thickness t with its reference plane at mid-thickness, kappa = 5/6.
Section<double> isotropic_section(double E, double nu, double t);

/// Any section moved so that z = 0 is a height h above its bottom.
Section<double> moved_to(const Section<double>& section, double h);

/// Nodes on the outline for which `on` holds.
std::vector<int> outline_nodes(const PlateModel& model,
                               const std::function<bool(double x, double y)>& on);

/// Node nearest a point.
int nearest_node(const PlateModel& model, double x, double y);

/// Solves one loading.
CaseSolution solve_one(const PlateModel& model, const Loading& loading);

/// Assembled K, dense (small meshes only).
Eigen::MatrixXd assembled(const PlateModel& model);

} // namespace vrid::tests
