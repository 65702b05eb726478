#include "solver/element/stress_stiffness.hpp"

#include <array>
#include <utility>

namespace vrid {

namespace {

// The local second derivatives at all points of an element, a column for each entry, beside what
// the nodes give there: rule, xi_tie and eta_tie, both_tie.
struct CurvedPoints {
    Index rule, ties, all; // how many of them: the first ones, those behind them
    MatrixXd N, Gx, Gy;    // all x n
    VectorXd xx, xy, yy;
    Eigen::Matrix<double, Eigen::Dynamic, 36> mixed, director;

    CurvedPoints(const ShellTables& t, const VectorXd& u, const PointFields& stress)
        : rule(t.rule.N.rows()), ties(t.xi_tie.N.rows() + t.eta_tie.N.rows()),
          all(rule + ties + t.both_tie.N.rows()), N(all, t.rule.N.cols()), Gx(all, N.cols()),
          Gy(all, N.cols()), xx(all), xy(all), yy(all), mixed(all, 36), director(all, 36) {
        Index row = 0;
        for (const auto& [points, on] :
             {std::pair{&t.rule, &stress.rule}, std::pair{&t.xi_tie, &stress.xi_tie},
              std::pair{&t.eta_tie, &stress.eta_tie}, std::pair{&t.both_tie, &stress.both_tie}}) {
            row = take(*points, u, *on, row);
        }
    }

    // diag(entry) G for a run of points.
    [[nodiscard]] auto times(const Eigen::Matrix<double, Eigen::Dynamic, 36>& of, int i, int j,
                             const MatrixXd& G, Index from, Index count) const {
        return of.col(6 * j + i).segment(from, count).asDiagonal() * G.middleRows(from, count);
    }

  private:
    Index take(const ShellPoints& points, const VectorXd& u, const PointStrains& stress,
               Index row) {
        const LocalMotions motions = local_motions(points, u);
        const Index count = motions.cols();
        N.middleRows(row, count) = points.N;
        Gx.middleRows(row, count) = points.Gx;
        Gy.middleRows(row, count) = points.Gy;
        for (Index p = 0; p < count; ++p) {
            const LocalCurvature one = local_curvature(
                motions.col(p), points.frame[static_cast<std::size_t>(p)], stress.col(p));
            xx(row + p) = one.xx;
            xy(row + p) = one.xy;
            yy(row + p) = one.yy;
            mixed.row(row + p) = one.mixed.reshaped().transpose();
            director.row(row + p) = one.director.reshaped().transpose();
        }
        return row + count;
    }
};

constexpr std::array<std::array<int, 2>, 6> moves_and_director{
    {{0, 0}, {1, 0}, {2, 0}, {0, 1}, {1, 1}, {2, 1}}};
constexpr std::array<std::array<int, 2>, 4> director_pairs{{{0, 0}, {1, 0}, {0, 1}, {1, 1}}};

// Adds a block of two components' nodes and its transpose.
void add_pair(MatrixXd& K, int row, int col, const Eigen::Ref<const MatrixXd>& block) {
    const Index n = block.rows();
    K(Eigen::seqN(row, n, 5), Eigen::seqN(col, n, 5)) += block;
    K(Eigen::seqN(col, n, 5), Eigen::seqN(row, n, 5)) += block.transpose();
}

// Membrane forces meet each of u v w alone, and all alike.
void add_moves(const CurvedPoints& c, MatrixXd& K) {
    const Index n = c.N.cols();
    MatrixXd left(2 * c.all, n);
    left << c.Gx, c.Gy;
    MatrixXd right(2 * c.all, n);
    right << c.xx.asDiagonal() * c.Gx + c.xy.asDiagonal() * c.Gy,
        c.xy.asDiagonal() * c.Gx + c.yy.asDiagonal() * c.Gy;
    const MatrixXd block = left.transpose() * right;
    for (int i = 0; i < 3; ++i) {
        K(Eigen::seqN(i, n, 5), Eigen::seqN(i, n, 5)) += block;
    }
}

// Shear and curvature between u v w and the director: the director's slopes meet them at the rule's
// points only.
void add_mixed(const CurvedPoints& c, MatrixXd& K) {
    const Index n = c.N.cols();
    MatrixXd left(2 * c.rule, n);
    left << c.Gx.topRows(c.rule), c.Gy.topRows(c.rule);
    MatrixXd right(2 * c.rule, 6 * n);
    MatrixXd at_ties(c.ties, 6 * n);
    Index col = 0;
    for (const auto& [i, j] : moves_and_director) {
        for (int side = 0; side < 2; ++side) {
            right.block(side * c.rule, col, c.rule, n) =
                c.times(c.mixed, 3 * side + i, j, c.N, 0, c.rule) +
                c.times(c.mixed, 3 * side + i, 2 + j, c.Gx, 0, c.rule) +
                c.times(c.mixed, 3 * side + i, 4 + j, c.Gy, 0, c.rule);
        }
        at_ties.middleCols(col, n) = c.times(c.mixed, i, j, c.Gx, c.rule, c.ties) +
                                     c.times(c.mixed, 3 + i, j, c.Gy, c.rule, c.ties);
        col += n;
    }
    const MatrixXd at_rule = left.transpose() * right;
    const MatrixXd turned = c.N.middleRows(c.rule, c.ties).transpose() * at_ties;
    col = 0;
    for (const auto& [i, j] : moves_and_director) {
        add_pair(K, i, 3 + j, at_rule.middleCols(col, n));
        add_pair(K, 3 + j, i, turned.middleCols(col, n));
        col += n;
    }
}

// The director with itself: its slopes with its values, never with each other. With each block
// comes its transpose: half of what values have with values.
void add_director(const CurvedPoints& c, MatrixXd& K) {
    const Index n = c.N.cols();
    const Index count = c.rule + c.ties;
    MatrixXd right(count, 4 * n);
    Index col = 0;
    for (const auto& [i, j] : director_pairs) {
        right.middleCols(col, n) = 0.5 * c.times(c.director, i, j, c.N, 0, count);
        right.block(0, col, c.rule, n) += c.times(c.director, i, 2 + j, c.Gx, 0, c.rule) +
                                          c.times(c.director, i, 4 + j, c.Gy, 0, c.rule);
        col += n;
    }
    const MatrixXd blocks = c.N.topRows(count).transpose() * right;
    col = 0;
    for (const auto& [i, j] : director_pairs) {
        add_pair(K, 3 + i, 3 + j, blocks.middleCols(col, n));
        col += n;
    }
}

} // namespace

void add_stress_stiffness(const ReferenceElement& r, const ShellTables& t, const VectorXd& u,
                          const PointStrains& resultant, MatrixXd& K) {
    const CurvedPoints curved(t, u, point_stresses(r, t, resultant));
    add_moves(curved, K);
    add_mixed(curved, K);
    add_director(curved, K);
}

} // namespace vrid
