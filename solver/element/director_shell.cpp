#include "solver/element/director_shell.hpp"

#include <array>

#include <Eigen/LU>

#include "mesh/lobatto.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::Matrix2d;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Values and slopes of the nodes' 1-D polynomials at some points.
struct Line {
    MatrixXd N, dN;
};

ShellPoints shell_points(const Line& xi, const Line& eta, const Eigen::Matrix2Xd& X,
                         const RestShape& rest) {
    const Index k = xi.N.cols();
    const Index px = xi.N.rows();
    const Index count = px * eta.N.rows();
    ShellPoints points;
    points.N.resize(count, X.cols());
    MatrixXd dxi(count, X.cols());
    MatrixXd deta(count, X.cols());
    for (Index j = 0; j < k; ++j) {
        for (Index i = 0; i < k; ++i) {
            for (Index b = 0; b < eta.N.rows(); ++b) {
                const auto at = Eigen::seqN(b * px, px);
                points.N(at, j * k + i) = xi.N.col(i) * eta.N(b, j);
                dxi(at, j * k + i) = xi.dN.col(i) * eta.N(b, j);
                deta(at, j * k + i) = xi.N.col(i) * eta.dN(b, j);
            }
        }
    }
    points.xi = X * dxi.transpose();
    points.eta = X * deta.transpose();
    points.Gx.resize(count, X.cols());
    points.Gy.resize(count, X.cols());
    const VectorXd x = points.N * X.row(0).transpose();
    const double middle = X.row(0).mean();
    for (Index p = 0; p < count; ++p) {
        Matrix2d J;
        J << points.xi.col(p).transpose(), points.eta.col(p).transpose();
        const Matrix2d inverse = J.inverse();
        points.Gx.row(p) = inverse(0, 0) * dxi.row(p) + inverse(0, 1) * deta.row(p);
        points.Gy.row(p) = inverse(1, 0) * dxi.row(p) + inverse(1, 1) * deta.row(p);
        points.frame.push_back(rest.frame(x(p), middle));
    }
    return points;
}

// Interpolation on a tensor grid, xi fastest.
MatrixXd tensor(const MatrixXd& xi, const MatrixXd& eta) {
    MatrixXd all(xi.rows() * eta.rows(), xi.cols() * eta.cols());
    for (Index b = 0; b < eta.rows(); ++b) {
        for (Index j = 0; j < eta.cols(); ++j) {
            all.block(b * xi.rows(), j * xi.cols(), xi.rows(), xi.cols()) = eta(b, j) * xi;
        }
    }
    return all;
}

// Sides of the middle of a quad: rows d(x, y)/dxi, d(x, y)/deta at xi = eta = 0.
Eigen::Matrix3d middle_turn(const ReferenceElement& r, const Eigen::Matrix2Xd& X) {
    const VectorXd zero = VectorXd::Zero(1);
    const MatrixXd N = lagrange(r.nodes, zero);
    const MatrixXd dN = lagrange_slope(r.nodes, zero);
    const Eigen::Vector2d a = X * tensor(dN, N).transpose();
    const Eigen::Vector2d b = X * tensor(N, dN).transpose();
    Eigen::Matrix3d turn;
    turn << a(0) * a(0), a(1) * a(1), a(0) * a(1), b(0) * b(0), b(1) * b(1), b(0) * b(1),
        2 * a(0) * b(0), 2 * a(1) * b(1), a(0) * b(1) + a(1) * b(0);
    return turn;
}

LocalMotion local_motion(const ShellPoints& points, Index p, const VectorXd& u) {
    const Eigen::Map<const MatrixXd> motion(u.data(), unknowns_per_node, points.N.cols());
    LocalMotion q;
    q << motion * points.N.row(p).transpose(), motion * points.Gx.row(p).transpose(),
        motion * points.Gy.row(p).transpose();
    return q;
}

// Combinations of local derivatives by the unknowns: a column for each row of `ds`.
template <int rows>
void by_unknowns(const ShellPoints& points, Index p, const Eigen::Matrix<double, rows, 15>& ds,
                 Eigen::Ref<Eigen::Matrix<double, Eigen::Dynamic, rows>> columns) {
    const Eigen::Matrix<double, 15, rows> by_motion = ds.transpose();
    for (Index i = 0; i < points.N.cols(); ++i) {
        columns.template middleRows<5>(5 * i) =
            points.N(p, i) * by_motion.template middleRows<5>(0) +
            points.Gx(p, i) * by_motion.template middleRows<5>(5) +
            points.Gy(p, i) * by_motion.template middleRows<5>(10);
    }
}

// A strain at tie points: values, and derivatives by the unknowns.
struct Tied {
    VectorXd value;
    MatrixXd ds; // unknowns x points
};

// Membrane component `row` of the turn, and the covariant shear along `side` (2 x points; none if
// null).
void tie(const ShellPoints& points, const VectorXd& u, const Eigen::RowVector3d& membrane,
         const Eigen::Matrix2Xd* side, std::array<Tied, 2>& tied, double& least_c) {
    const auto count = static_cast<Index>(points.frame.size());
    for (Tied& one : tied) {
        one.value.resize(count);
        one.ds.resize(u.size(), count);
    }
    for (Index p = 0; p < count; ++p) {
        const LocalStrain local =
            local_strain(local_motion(points, p, u), points.frame[static_cast<std::size_t>(p)]);
        least_c = local.c > least_c ? least_c : local.c; // NaN comes through
        tied[0].value(p) = membrane * local.s.head<3>();
        by_unknowns<1>(points, p, membrane * local.ds.topRows<3>(), tied[0].ds.col(p));
        if (side != nullptr) {
            const Eigen::RowVector2d along((*side)(1, p), (*side)(0, p)); // yz, xz
            tied[1].value(p) = along * local.s.tail<2>();
            by_unknowns<1>(points, p, along * local.ds.bottomRows<2>(), tied[1].ds.col(p));
        }
    }
}

} // namespace

ShellTables shell_tables(const ReferenceElement& r, const Eigen::Matrix2Xd& X,
                         const RestShape& rest) {
    const Line rule{r.N1, r.dN1};
    const Line gauss_ties{r.tie_N, r.tie_dN};
    const Line nodes{MatrixXd::Identity(r.p + 1, r.p + 1), lobatto_derivative(r.p) / 2};
    ShellTables t;
    t.rule = shell_points(rule, rule, X, rest);
    t.xi_tie = shell_points(gauss_ties, nodes, X, rest);
    t.eta_tie = shell_points(nodes, gauss_ties, X, rest);
    t.both_tie = shell_points(gauss_ties, gauss_ties, X, rest);
    t.from_xi = tensor(r.tie_to_rule, r.N1);
    t.from_eta = tensor(r.N1, r.tie_to_rule);
    t.from_both = tensor(r.tie_to_rule, r.tie_to_rule);
    t.turn = middle_turn(r, X);
    t.weight.resize(r.m);
    for (Index p = 0; p < r.m; ++p) {
        const double det = t.rule.xi(0, p) * t.rule.eta(1, p) - t.rule.xi(1, p) * t.rule.eta(0, p);
        t.weight(p) = r.rule.weight(p % r.q) * r.rule.weight(p / r.q) * det;
    }
    return t;
}

namespace {

// (g_yz, g_xz) from the covariant (g_xi, g_eta) at a point of the rule.
Matrix2d shear_turn(const ShellPoints& rule, Index p) {
    Matrix2d J; // columns yz, xz
    J << rule.xi(1, p), rule.xi(0, p), rule.eta(1, p), rule.eta(0, p);
    return J.inverse();
}

} // namespace

ShellStrains shell_strains(const ReferenceElement& r, const ShellTables& t, const VectorXd& u) {
    ShellStrains all{Eigen::Matrix<double, 8, Eigen::Dynamic>(8, r.m), MatrixXd(8 * r.m, u.size()),
                     1};
    std::array<Tied, 2> xi;
    std::array<Tied, 2> eta;
    std::array<Tied, 2> both;
    tie(t.xi_tie, u, t.turn.row(0), &t.xi_tie.xi, xi, all.least_c);
    tie(t.eta_tie, u, t.turn.row(1), &t.eta_tie.eta, eta, all.least_c);
    tie(t.both_tie, u, t.turn.row(2), nullptr, both, all.least_c);
    const Eigen::Matrix3d back = t.turn.inverse();
    // unknowns x points
    const std::array<MatrixXd, 5> ds{
        xi[0].ds * t.from_xi.transpose(), eta[0].ds * t.from_eta.transpose(),
        both[0].ds * t.from_both.transpose(), xi[1].ds * t.from_xi.transpose(),
        eta[1].ds * t.from_eta.transpose()};
    Eigen::Matrix<double, 5, Eigen::Dynamic> value(5, r.m);
    value.row(0) = (t.from_xi * xi[0].value).transpose();
    value.row(1) = (t.from_eta * eta[0].value).transpose();
    value.row(2) = (t.from_both * both[0].value).transpose();
    value.row(3) = (t.from_xi * xi[1].value).transpose();
    value.row(4) = (t.from_eta * eta[1].value).transpose();
    Eigen::Matrix<double, Eigen::Dynamic, 8> here(u.size(), 8); // of a point: written side by side
    for (Index p = 0; p < r.m; ++p) {
        const LocalStrain local =
            local_strain(local_motion(t.rule, p, u), t.rule.frame[static_cast<std::size_t>(p)]);
        all.least_c = local.c > all.least_c ? all.least_c : local.c;
        const Matrix2d shear = shear_turn(t.rule, p);
        all.strain.col(p) << back * value.col(p).head<3>(), local.s.segment<3>(3),
            shear * value.col(p).tail<2>();
        for (Index i = 0; i < 3; ++i) {
            here.col(i) =
                back(i, 0) * ds[0].col(p) + back(i, 1) * ds[1].col(p) + back(i, 2) * ds[2].col(p);
        }
        by_unknowns<3>(t.rule, p, local.ds.middleRows<3>(3), here.middleCols<3>(3));
        here.col(6) = shear(0, 0) * ds[3].col(p) + shear(0, 1) * ds[4].col(p);
        here.col(7) = shear(1, 0) * ds[3].col(p) + shear(1, 1) * ds[4].col(p);
        all.ds.middleRows<8>(8 * p) = here.transpose();
    }
    return all;
}

namespace {

// sum over the points of L^T H L, L the local motion by the unknowns. Component by component: H has
// values, d/dx and d/dy of each of the five.
void add_curvatures(const ShellPoints& points, const VectorXd& u,
                    const Eigen::Matrix<double, 8, Eigen::Dynamic>& stress, MatrixXd& K) {
    const Index count = points.N.rows();
    const Index n = points.N.cols();
    std::vector<Eigen::Matrix<double, 15, 15>> H;
    for (Index p = 0; p < count; ++p) {
        H.push_back(local_curvature(local_motion(points, p, u),
                                    points.frame[static_cast<std::size_t>(p)], stress.col(p)));
    }
    MatrixXd left(3 * count, n);
    left << points.N, points.Gx, points.Gy;
    MatrixXd right(3 * count, n);
    MatrixXd block(n, n);
    const auto add = [&](int row, int col) {
        for (Index p = 0; p < count; ++p) {
            const auto& h = H[static_cast<std::size_t>(p)];
            for (int part = 0; part < 3; ++part) {
                const int at = 5 * part + row;
                right.row(part * count + p) = h(at, col) * points.N.row(p) +
                                              h(at, 5 + col) * points.Gx.row(p) +
                                              h(at, 10 + col) * points.Gy.row(p);
            }
        }
        block.noalias() = left.transpose() * right;
        K(Eigen::seqN(row, n, 5), Eigen::seqN(col, n, 5)) += block;
        if (row != col) {
            K(Eigen::seqN(col, n, 5), Eigen::seqN(row, n, 5)) += block.transpose();
        }
    };
    add(0, 0); // membrane forces meet each of u v w alone, and all alike
    for (int c = 1; c < 3; ++c) {
        K(Eigen::seqN(c, n, 5), Eigen::seqN(c, n, 5)) += block;
    }
    for (int col = 3; col < 5; ++col) {
        for (int row = 0; row <= col; ++row) {
            add(row, col);
        }
    }
}

} // namespace

void add_stress_stiffness(const ReferenceElement& r, const ShellTables& t, const VectorXd& u,
                          const Eigen::Matrix<double, 8, Eigen::Dynamic>& resultant, MatrixXd& K) {
    using Stress = Eigen::Matrix<double, 8, Eigen::Dynamic>;
    Stress at_rule = Stress::Zero(8, r.m);
    Eigen::Matrix<double, 5, Eigen::Dynamic> tied(5, r.m); // along e_11 e_22 2e_12 g_xi g_eta
    const Eigen::Matrix3d back = t.turn.inverse().transpose();
    for (Index p = 0; p < r.m; ++p) {
        const Strain8 weighted = t.weight(p) * resultant.col(p);
        at_rule.col(p).segment<3>(3) = weighted.segment<3>(3);
        tied.col(p) << back * weighted.head<3>(),
            shear_turn(t.rule, p).transpose() * weighted.tail<2>();
    }
    add_curvatures(t.rule, u, at_rule, K);
    const auto at_ties = [&](const ShellPoints& points, const MatrixXd& from, int membrane,
                             const Eigen::Matrix2Xd* side) {
        const VectorXd along = from.transpose() * tied.row(membrane).transpose();
        Stress stress = Stress::Zero(8, points.N.rows());
        stress.topRows<3>() = t.turn.row(membrane).transpose() * along.transpose();
        if (side != nullptr) {
            const VectorXd shear = from.transpose() * tied.row(3 + membrane).transpose();
            stress.row(6) = side->row(1).cwiseProduct(shear.transpose());
            stress.row(7) = side->row(0).cwiseProduct(shear.transpose());
        }
        add_curvatures(points, u, stress, K);
    };
    at_ties(t.xi_tie, t.from_xi, 0, &t.xi_tie.xi);
    at_ties(t.eta_tie, t.from_eta, 1, &t.eta_tie.eta);
    at_ties(t.both_tie, t.from_both, 2, nullptr);
}

ElementTables element_tables(const ReferenceElement& r, const Eigen::Matrix2Xd& X,
                             const RestShape* rest) {
    ElementTables tables = element_tables(r, X);
    if (rest != nullptr) {
        const VectorXd still = VectorXd::Zero(Index(unknowns_per_node) * r.n);
        tables.strain = shell_strains(r, shell_tables(r, X, *rest), still).ds;
    }
    return tables;
}

} // namespace vrid
