#include "solver/system/block_krylov.hpp"

#include <algorithm>
#include <limits>
#include <memory>
#include <utility>

#include <cblas.h>

#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

using Columns = Eigen::Ref<const MatrixXd>;

constexpr Index largest_basis = 120;    // columns; then it restarts
constexpr double next_tolerance = 1e-3; // of the pair beyond the wanted ones
constexpr double dependent = 1e-12;     // of a Gram matrix's largest eigenvalue: no new direction

int size(Index n) {
    return static_cast<int>(n);
}

// a^T b
MatrixXd inner(const Columns& a, const Columns& b) {
    MatrixXd product(a.cols(), b.cols());
    cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, size(a.cols()), size(b.cols()),
                size(a.rows()), 1, a.data(), size(a.outerStride()), b.data(), size(b.outerStride()),
                0, product.data(), size(product.rows()));
    return product;
}

// c + factor a b
void add_product(const Columns& a, const MatrixXd& b, double factor, MatrixXd& c) {
    cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, size(a.rows()), size(b.cols()),
                size(a.cols()), factor, a.data(), size(a.outerStride()), b.data(), size(b.rows()),
                1, c.data(), size(c.rows()));
}

MatrixXd product(const Columns& a, const MatrixXd& b) {
    MatrixXd c = MatrixXd::Zero(a.rows(), b.cols());
    add_product(a, b, 1, c);
    return c;
}

/// A block that is orthonormal in M, and the coefficients of what it was made from: block = Q R.
struct Orthonormal {
    MatrixXd Q, MQ, R;
};

/// By the eigenvectors of the Gram matrix of unit columns, twice; directions that depend on others
/// are left out.
Orthonormal orthonormal(const KrylovOperators& operators, MatrixXd block) {
    Orthonormal all;
    all.R = MatrixXd::Identity(block.cols(), block.cols());
    all.MQ = operators.mass(block);
    all.Q = std::move(block);
    for (int round = 0; round < 2 && all.Q.cols() > 0; ++round) {
        const MatrixXd gram = inner(all.Q, all.MQ);
        const VectorXd length = gram.diagonal().cwiseMax(0).cwiseSqrt();
        const VectorXd inverse = length.unaryExpr([](double n) { return n > 0 ? 1 / n : 0.0; });
        const SymmetricEigen eigen = symmetric_eigen(
            inverse.asDiagonal() * (gram + gram.transpose()) / 2 * inverse.asDiagonal());
        const VectorXd& square = eigen.values; // rising
        const double least = dependent * square(square.size() - 1);
        const auto kept = static_cast<Index>((square.array() > least).count());
        const MatrixXd vectors = eigen.vectors.rightCols(kept);
        const VectorXd root = square.tail(kept).cwiseSqrt();
        const MatrixXd scaled = inverse.asDiagonal() * vectors * root.cwiseInverse().asDiagonal();
        all.R = root.asDiagonal() * vectors.transpose() * length.asDiagonal() * all.R;
        all.MQ = product(all.MQ, scaled);
        all.Q = product(all.Q, scaled);
    }
    return all;
}

/// The basis so far, orthonormal in M, and T in it.
struct Basis {
    using Room = Eigen::Map<MatrixXd>;
    std::shared_ptr<double> memory;
    Room V, MV; // room for the largest basis; `columns` are used
    MatrixXd H;
    Index columns = 0;
    Index last = 0; // columns of the last block

    Basis(std::shared_ptr<double> of_both, Index rows, Index most)
        : memory(std::move(of_both)), V(memory.get(), rows, most),
          MV(memory.get() + rows * most, rows, most) {}
    void start(const Orthonormal& block) {
        columns = 0;
        H.resize(0, 0);
        add(block);
    }
    void add(const Orthonormal& block) {
        last = block.Q.cols();
        V.middleCols(columns, last) = block.Q;
        MV.middleCols(columns, last) = block.MQ;
        columns += last;
    }
    [[nodiscard]] auto motions() const { return V.leftCols(columns); }
    [[nodiscard]] auto forces() const { return MV.leftCols(columns); }
};

/// Takes the basis out of the block, twice; returns its coefficients in the basis. A column of
/// which nothing but rounding is left becomes zero.
MatrixXd take_out(const Basis& basis, MatrixXd& block) {
    constexpr double rounding = 1e-13;
    const Eigen::RowVectorXd before = block.colwise().norm();
    MatrixXd all = MatrixXd::Zero(basis.columns, block.cols());
    for (int round = 0; round < 2; ++round) {
        const MatrixXd part = inner(basis.forces(), block);
        add_product(basis.motions(), part, -1, block);
        all += part;
    }
    for (Index c = 0; c < block.cols(); ++c) {
        if (block.col(c).norm() <= rounding * before(c)) {
            block.col(c).setZero();
        }
    }
    return all;
}

/// Adds what T makes of the last block to T in the basis.
void add_to_H(Basis& basis, const MatrixXd& coefficients) {
    basis.H.conservativeResize(basis.columns, basis.columns);
    basis.H.rightCols(basis.last) = coefficients;
    basis.H.bottomRows(basis.last) = coefficients.transpose();
}

struct Ritz {
    VectorXd theta; // falling
    MatrixXd y;
    VectorXd lack; // ||T x - theta x|| / theta
};

/// \param R what the next block holds of T times the last one
Ritz ritz_pairs(const Basis& basis, const MatrixXd& R) {
    const SymmetricEigen eigen = symmetric_eigen((basis.H + basis.H.transpose()) / 2);
    Ritz ritz{eigen.values.reverse(), eigen.vectors.rowwise().reverse(), {}};
    ritz.lack = (R * ritz.y.bottomRows(basis.last)).colwise().norm().transpose();
    ritz.lack = ritz.lack.cwiseQuotient(ritz.theta.cwiseAbs());
    return ritz;
}

bool are_found(const Ritz& ritz, const KrylovOptions& options) {
    const Index count = options.count;
    return ritz.theta.size() > count && ritz.lack(count) < next_tolerance &&
           ritz.lack.head(count).maxCoeff() < options.tolerance;
}

} // namespace

KrylovPairs largest_pairs(const KrylovOperators& operators, const MatrixXd& start,
                          const KrylovOptions& options) {
    const auto wanted = static_cast<Index>(options.count);
    const Index width = std::max(start.cols(), wanted + 1);
    const Index most = std::max(largest_basis, width);
    MemoryStock fresh;
    MemoryStock& stock = options.stock != nullptr ? *options.stock : fresh;
    Basis basis(stock.lend(2 * static_cast<std::size_t>(start.rows() * most)), start.rows(), most);
    basis.start(orthonormal(operators, start));
    KrylovPairs pairs;
    for (int step = 0; step < options.most_steps && !pairs.converged; ++step) {
        MatrixXd next =
            operators.inverse(basis.MV.middleCols(basis.columns - basis.last, basis.last));
        const MatrixXd coefficients = take_out(basis, next);
        add_to_H(basis, coefficients);
        const Orthonormal block = orthonormal(operators, std::move(next));
        const bool whole = block.Q.cols() == 0; // the basis holds all that T reaches
        const Ritz ritz = ritz_pairs(basis, block.R);
        pairs.converged = are_found(ritz, options) || (whole && ritz.theta.size() >= wanted);
        if (!pairs.converged && !whole && basis.columns + block.Q.cols() <= largest_basis) {
            basis.add(block);
            continue;
        }
        const Index kept = std::min(basis.columns, width);
        pairs.theta = ritz.theta.head(kept);
        pairs.vectors = product(basis.motions(), ritz.y.leftCols(kept));
        pairs.lack = kept > 0 ? ritz.lack.head(std::min(kept, wanted)).maxCoeff()
                              : std::numeric_limits<double>::infinity();
        if (whole || kept == 0) {
            break;
        }
        if (!pairs.converged) {
            basis.start(orthonormal(operators, pairs.vectors));
        }
    }
    return pairs;
}

} // namespace vrid
