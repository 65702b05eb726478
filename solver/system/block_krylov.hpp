#pragma once

#include <functional>

#include "mesh/board/eigen_names.hpp"
#include "solver/system/large_memory.hpp"

namespace vrid {

/// A symmetric pencil as its inverse sees it: T = K^-1 M, symmetric in the product of M.
struct KrylovOperators {
    /// K^-1 of every column of a force, motions to be left out taken out.
    std::function<Eigen::MatrixXd(const Eigen::MatrixXd& force)> inverse;
    /// M times every column of a motion.
    std::function<Eigen::MatrixXd(const Eigen::MatrixXd& motion)> mass;
};

struct KrylovOptions {
    int count = 1; ///< pairs wanted
    /// ||T x - theta x|| over theta, in the norm of M. Values are good to its square, vectors to it
    /// over the distance of the next value.
    double tolerance = 1e-9;
    int most_steps = 200;         ///< inverses of a block
    MemoryStock* stock = nullptr; ///< where memory comes from; null: fresh from the system
};

/// Largest eigenvalues theta of T, falling, and their vectors (X^T M X = 1).
struct KrylovPairs {
    Eigen::VectorXd theta;
    Eigen::MatrixXd vectors; ///< the wanted ones first, then what else the last block has room for
    double lack = 0;         ///< the largest ||T x - theta x|| over theta of the wanted ones
    bool converged = false;
};

/// Block Krylov method with full orthogonalisation (G. H. Golub, R. Underwood, The block Lanczos
/// method for computing eigenvalues, in: Mathematical Software III, 1977), restarted from its best
/// vectors. Equal eigenvalues come as often as there are as long as there are no more of them than
/// columns of `start`. One pair beyond the wanted ones must have come near its place (1e-3), so
/// that none is missed.
KrylovPairs largest_pairs(const KrylovOperators& operators, const Eigen::MatrixXd& start,
                          const KrylovOptions& options);

} // namespace vrid
