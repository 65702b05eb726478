#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include "solver/system/elimination.hpp"

namespace vrid {

/// loads^T K^-1 loads.leftCols(count) for many loads on few unknowns each (rows: dofs, fixed ones
/// are ignored; columns: loads). K = L L^T makes it Y^T Y with Y = L^-1 loads: no backward
/// substitution, and a load is only known to the fronts between its unknowns and the root.
Eigen::MatrixXd inverse_product(const Factor& factor, const Eigen::SparseMatrix<double>& loads,
                                Eigen::Index count);

} // namespace vrid
