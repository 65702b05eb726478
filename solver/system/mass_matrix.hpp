#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include "solver/system/model.hpp"

namespace vrid {

/// M of a plate as three matrices nodes x nodes with the same entries.
struct MassMatrix {
    using Nodes = Eigen::SparseMatrix<double, Eigen::RowMajor>;
    Nodes I0; ///< on u v w [kg]
    Nodes I1; ///< between u, bx and v, by [kg m]
    Nodes I2; ///< on bx by [kg m2]
};

MassMatrix mass_matrix(const PlateModel& model);

/// M times every column of x (rows: 5 a node).
Eigen::MatrixXd times(const MassMatrix& mass, const Eigen::MatrixXd& x);

} // namespace vrid
