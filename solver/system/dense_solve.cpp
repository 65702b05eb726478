#include "solver/system/dense_solve.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <Eigen/QR>

namespace vrid {

MatrixXd solve_symmetric(const MatrixXd& A, const MatrixXd& b) {
    return A.ldlt().solve(b);
}

MatrixXd inverse_of_symmetric(const MatrixXd& A) {
    return solve_symmetric(A, MatrixXd::Identity(A.rows(), A.cols()));
}

MatrixXd solve_square(const MatrixXd& A, const MatrixXd& b) {
    return A.partialPivLu().solve(b);
}

MatrixXd least_squares(const MatrixXd& A, const MatrixXd& b) {
    return A.colPivHouseholderQr().solve(b);
}

SymmetricEigen symmetric_eigen(const MatrixXd& A) {
    const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(A);
    return {eigen.eigenvalues(), eigen.eigenvectors()};
}

} // namespace vrid
