#pragma once

#include "mesh/board/eigen_names.hpp"

namespace vrid {

// Eigen's decompositions of matrices of any size, compiled once: each takes a second or two in
// every unit that names it.

/// x of A x = b, n x k, A symmetric and not definite by need: L D L^T with pivots.
MatrixXd solve_symmetric(const MatrixXd& A, const MatrixXd& b);
MatrixXd inverse_of_symmetric(const MatrixXd& A);
/// x of A x = b for any regular A: L U with partial pivots.
MatrixXd solve_square(const MatrixXd& A, const MatrixXd& b);

/// x of least |A x - b|, A of full column rank: Q R with pivots.
MatrixXd least_squares(const MatrixXd& A, const MatrixXd& b);

struct SymmetricEigen {
    VectorXd values;  ///< rising
    MatrixXd vectors; ///< orthonormal columns
};
SymmetricEigen symmetric_eigen(const MatrixXd& A);

} // namespace vrid
