#pragma once

#include <functional>
#include <vector>

#include "mesh/mesher.hpp"
#include "solver/cases/degree_run.hpp"

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

/// GJ [N m2] of a strip along x between two rigid end bars, at -length / 2 and length / 2, that
/// turn the normals with them: free torsion exactly.
double torsion_stiffness(const PlateModel& model, double length);

/// Assembled K, dense (small meshes only).
Eigen::MatrixXd assembled(const PlateModel& model);

} // namespace vrid::tests
