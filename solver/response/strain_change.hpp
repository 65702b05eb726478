#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/system/model.hpp"

namespace vrid {

/// Energy of the difference of two motions' strains over the energy of the finer one, a number a
/// column: of motions of one mesh at two degrees, the strains as each element ties them, int d^T C
/// d / int e^T C e with d = e - e of the coarser. Never negative, so that nothing in it cancels: of
/// elements without ties it is, by Galerkin's orthogonality, the change of the stiffness itself.
/// \param coarse, fine columns of the same cases; a column of nothing has 0
Eigen::VectorXd strain_change(const PlateModel& coarse_model, const Eigen::MatrixXd& coarse,
                              const PlateModel& fine_model, const Eigen::MatrixXd& fine,
                              int threads);

} // namespace vrid
