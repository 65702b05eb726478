#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/design_board.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// Derivatives of numbers by the design values, from what the numbers owe to the section: one row a
/// number (those of all sets, one after the other), one column a design value, SI by SI.
///
/// Sections are differentiated by dual numbers, S included. At fixed core thickness t a stack's
/// section is a smooth function of t: it is taken at Chebyshev points over the range of t, as many
/// as give the section itself to 1e-11, and the weights are gathered there by interpolation, so
/// that the cost does not grow with the mesh. The way through t uses dt/dp at every place.
Eigen::MatrixXd design_slopes(const DesignBoard& design,
                              const std::vector<const SectionWeights*>& sets, int threads = 1);

/// Derivatives of the board's thickness on the long axis at station x [m].
Eigen::VectorXd thickness_slopes(const DesignBoard& design, double x);

/// Derivative of each number by the core thickness at each place over the area there: places x
/// numbers, SI; 0 where there is no core. The picture of where to sand.
Eigen::MatrixXd core_densities(const DesignBoard& design, const SectionWeights& weights);

} // namespace vrid
