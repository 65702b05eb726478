#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include "solver/system/model.hpp"

namespace vrid {

/// M of a plate as matrices nodes x nodes with the same entries.
struct MassMatrix {
    using Nodes = Eigen::SparseMatrix<double, Eigen::RowMajor>;
    Nodes I0; ///< on u v w [kg]
    Nodes I1; ///< between u, bx and v, by [kg m]
    Nodes I2; ///< on bx by [kg m2]
    /// On a rest shape bx goes with u_t = C u + S w: I1 C between u and bx, I1 S between w and bx
    /// [kg m]. Empty for the flat plate, where I1 is between u and bx.
    Nodes I1C, I1S;
};

MassMatrix mass_matrix(const PlateModel& model);

/// M times every column of x (rows: 5 a node).
Eigen::MatrixXd times(const MassMatrix& mass, const Eigen::MatrixXd& x);

} // namespace vrid
