#include "solver/lot/change.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "mesh/board/lists.hpp"
#include "solver/lot/change_scan.hpp"
#include "solver/lot/tails.hpp"
#include "solver/system/dense_solve.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

constexpr Index most_blocks = 500;
constexpr int enough = 50;          // drawn lots beyond the lot's own
constexpr double same_way = 0.9995; // cosine of columns of which one speaks for both

// A lot as blocks of neighbours: the sum of each block's g_i = H_i^T S_i^-1 (y_i - m), and its
// weight, sum H_i^T S_i^-1 H_i, which is the covariance of that sum while nothing moves. The score
// of value j is J_j^T g, its weight J_j^T M J_j: values cost a product each, nothing else.
struct Blocks {
    MatrixXd g;                    // k x blocks
    std::vector<std::size_t> kind; // of each block, in matrix and root
    std::vector<MatrixXd> matrix, root;
};

MatrixXd scores_about(const LotCells& cells, const std::vector<LotWeight>& weights,
                      const VectorXd& centre) {
    MatrixXd g(cells.residual.rows(), cells.residual.cols());
    for (Index i = 0; i < g.cols(); ++i) {
        g.col(i) = weights[cells.pattern[static_cast<std::size_t>(i)]].matrix *
                   (cells.residual.col(i) - centre);
    }
    return g;
}

MatrixXd scores_of(const LotCells& cells, const std::vector<LotWeight>& weights) {
    return scores_about(cells, weights, lot_centre(cells, weights).mean);
}

// A root of a matrix that may be singular: numbers that nobody measured.
MatrixXd root_of(const MatrixXd& M) {
    const SymmetricEigen eigen = symmetric_eigen(M);
    return eigen.vectors * eigen.values.cwiseMax(0).cwiseSqrt().asDiagonal();
}

Blocks blocks_of(const LotCells& cells, const std::vector<LotWeight>& weights, const MatrixXd& g) {
    Blocks blocks;
    const Index count = std::min(g.cols(), most_blocks);
    blocks.g = MatrixXd::Zero(g.rows(), count);
    if (count == g.cols()) { // one board each: a matrix a pattern
        blocks.g = g;
        blocks.kind = cells.pattern;
        for (const LotWeight& weight : weights) {
            blocks.matrix.push_back(weight.matrix);
        }
    } else {
        blocks.matrix.assign(static_cast<std::size_t>(count), MatrixXd::Zero(g.rows(), g.rows()));
        for (Index i = 0; i < g.cols(); ++i) {
            const Index block = i * count / g.cols();
            blocks.g.col(block) += g.col(i);
            blocks.matrix[static_cast<std::size_t>(block)] +=
                weights[cells.pattern[static_cast<std::size_t>(i)]].matrix;
        }
        for (Index b = 0; b < count; ++b) {
            blocks.kind.push_back(static_cast<std::size_t>(b));
        }
    }
    for (const MatrixXd& matrix : blocks.matrix) {
        blocks.root.push_back(root_of(matrix));
    }
    return blocks;
}

// Free values of which no other stands for what they do; one that no board sees is left out.
std::vector<Index> distinct_values(const LotModel& model, const MatrixXd& M) {
    std::vector<Index> distinct;
    for (const Index j : model.free) {
        const VectorXd weighted = M * model.slopes.col(j);
        const double q = model.slopes.col(j).dot(weighted);
        const bool alike = std::ranges::any_of(distinct, [&](Index other) {
            const auto& column = model.slopes.col(other);
            const double cross = column.dot(weighted);
            return cross * cross > same_way * same_way * q * column.dot(M * column);
        });
        if (q > 0 && !alike) {
            distinct.push_back(j);
        }
    }
    return distinct;
}

VectorXd weights_along(const LotModel& model, const std::vector<MatrixXd>& matrices,
                       const std::vector<std::size_t>& kind, Index value) {
    const auto& column = model.slopes.col(value);
    std::vector<double> of;
    for (const MatrixXd& matrix : matrices) {
        of.push_back(std::max(0.0, column.dot(matrix * column)));
    }
    VectorXd q(static_cast<Index>(kind.size()));
    for (Index i = 0; i < q.size(); ++i) {
        q(i) = of[kind[static_cast<std::size_t>(i)]];
    }
    return q;
}

// Draws lots in which nothing moves and asks how large their largest gain is.
class DrawnLots {
  public:
    DrawnLots(const LotModel& model, const Blocks& blocks, const std::vector<Index>& values,
              std::uint64_t seed)
        : blocks_(blocks), slopes_(model.slopes(Eigen::all, values)), seed_(seed) {
        MatrixXd sum = MatrixXd::Zero(slopes_.rows(), slopes_.rows());
        for (const std::size_t kind : blocks.kind) {
            sum += blocks.matrix[kind];
        }
        centre_ = inverse_of_symmetric(sum);
        for (const Index j : values) {
            scans_.emplace_back(weights_along(model, blocks.matrix, blocks.kind, j));
        }
    }

    [[nodiscard]] double largest(const MatrixXd& g) const {
        const MatrixXd u = g.transpose() * slopes_; // blocks x values
        double largest = 0;
        for (std::size_t j = 0; j < scans_.size(); ++j) {
            largest = std::max(largest, scans_[j].largest(u.col(static_cast<Index>(j))));
        }
        return largest;
    }

    [[nodiscard]] double drawn(int lot) const {
        std::seed_seq sequence{static_cast<std::uint32_t>(seed_),
                               static_cast<std::uint32_t>(seed_ >> 32U),
                               static_cast<std::uint32_t>(lot)};
        std::mt19937_64 random(sequence);
        std::normal_distribution<double> normal;
        MatrixXd g(blocks_.g.rows(), blocks_.g.cols());
        VectorXd z(g.rows());
        for (Index b = 0; b < g.cols(); ++b) {
            for (double& one : z) {
                one = normal(random);
            }
            g.col(b).noalias() = blocks_.root[blocks_.kind[static_cast<std::size_t>(b)]] * z;
        }
        const VectorXd mean = centre_ * g.rowwise().sum();
        for (Index b = 0; b < g.cols(); ++b) {
            g.col(b).noalias() -= blocks_.matrix[blocks_.kind[static_cast<std::size_t>(b)]] * mean;
        }
        return largest(g);
    }

  private:
    const Blocks& blocks_;
    MatrixXd slopes_, centre_;
    std::vector<ChangeScan> scans_;
    std::uint64_t seed_;
};

double chance_of(const DrawnLots& lots, double found, const ChangeOptions& options) {
    constexpr int round = 100;
    int drawn = 0;
    int beyond = 0;
    while (drawn < options.lots && beyond < enough) {
        const int count = std::min(round, options.lots - drawn);
        std::vector<double> largest(static_cast<std::size_t>(count));
        for_each_in_parallel(count, options.threads, [&](int lot) {
            largest[static_cast<std::size_t>(lot)] = lots.drawn(drawn + lot);
        });
        for (const double one : largest) {
            beyond += one >= found ? 1 : 0;
        }
        drawn += count;
    }
    return (1.0 + beyond) / (1.0 + drawn);
}

std::vector<MatrixXd> matrices_of(const std::vector<LotWeight>& weights) {
    return each_of(weights, &LotWeight::matrix);
}

} // namespace

LotChange lot_change(const LotModel& model, const LotCells& cells, const MatrixXd& V,
                     const ChangeOptions& options) {
    const std::vector<LotWeight> weights = lot_weights(cells, V);
    const std::vector<MatrixXd> matrices = matrices_of(weights);
    const MatrixXd g = scores_of(cells, weights);
    LotChange change;
    double best = -1;
    std::vector<double> reached;
    for (const Index j : model.free) {
        const ChangeScan scan(weights_along(model, matrices, cells.pattern, j));
        const VectorXd u = g.transpose() * model.slopes.col(j);
        const FirstBoard step = scan.best(u, ChangeShape::step);
        const FirstBoard ramp = scan.best(u, ChangeShape::ramp);
        reached.push_back(std::max(step.G2, ramp.G2));
        if (reached.back() > best) {
            best = reached.back();
            change.value = j;
            change.step = step;
            change.ramp = ramp;
            change.shape = ramp.G2 > step.G2 ? ChangeShape::ramp : ChangeShape::step;
        }
    }
    for (std::size_t i = 0; i < reached.size(); ++i) {
        if (model.free[i] != change.value && reached[i] > best - as_good) {
            change.rivals.push_back(model.free[i]);
        }
    }
    const Blocks blocks = blocks_of(cells, weights, g);
    MatrixXd sum = MatrixXd::Zero(g.rows(), g.rows());
    for (const std::size_t kind : blocks.kind) {
        sum += blocks.matrix[kind];
    }
    const DrawnLots lots(model, blocks, distinct_values(model, sum), options.seed);
    change.p = chance_of(lots, lots.largest(blocks.g), options);
    return change;
}

VectorXd value_score(const LotModel& model, const LotCells& cells, const MatrixXd& V, Index value,
                     bool about_centre) {
    const std::vector<LotWeight> weights = lot_weights(cells, V);
    const MatrixXd g = about_centre
                           ? scores_of(cells, weights)
                           : scores_about(cells, weights, VectorXd::Zero(cells.residual.rows()));
    const VectorXd q = weights_along(model, matrices_of(weights), cells.pattern, value);
    const VectorXd u = g.transpose() * model.slopes.col(value);
    return (q.array() > 0).select(u.array() / q.array().max(1e-300).sqrt(), 0.0);
}

ColumnTest column_test(const LotCells& cells, const MatrixXd& V, const std::vector<int>& groups) {
    const std::vector<LotWeight> weights = lot_weights(cells, V);
    const Index numbers = cells.residual.rows();
    const int count = groups.empty() ? 0 : 1 + *std::ranges::max_element(groups);
    ColumnTest test;
    if (count < 2 || 2 * static_cast<std::size_t>(count) > groups.size()) {
        return test;
    }
    const MatrixXd g = scores_of(cells, weights);
    std::vector<MatrixXd> matrix(static_cast<std::size_t>(count), MatrixXd::Zero(numbers, numbers));
    MatrixXd sums = MatrixXd::Zero(numbers, count);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (groups[i] >= 0) {
            sums.col(groups[i]) += g.col(static_cast<Index>(i));
            matrix[static_cast<std::size_t>(groups[i])] += weights[cells.pattern[i]].matrix;
        }
    }
    MatrixXd all = MatrixXd::Zero(numbers, numbers);
    int rank = 0;
    const auto add = [&](const MatrixXd& M, const VectorXd& sum, double sign) {
        const VectorXd scale =
            (M.diagonal().array() > 0).select(M.diagonal().array().sqrt().inverse(), 0.0);
        const SymmetricEigen eigen = symmetric_eigen(scale.asDiagonal() * M * scale.asDiagonal());
        const VectorXd along = eigen.vectors.transpose() * (scale.asDiagonal() * sum);
        for (Index k = 0; k < numbers; ++k) {
            constexpr double nothing = 1e-10;
            if (eigen.values(k) > nothing) {
                test.statistic += sign * along(k) * along(k) / eigen.values(k);
                rank += sign > 0 ? 1 : -1;
            }
        }
    };
    for (int group = 0; group < count; ++group) {
        all += matrix[static_cast<std::size_t>(group)];
        add(matrix[static_cast<std::size_t>(group)], sums.col(group), 1);
    }
    add(all, sums.rowwise().sum(), -1);
    test.degrees = std::max(0, rank);
    test.p = test.degrees > 0 ? chi2_tail(test.statistic, test.degrees) : 1;
    return test;
}

} // namespace vrid
