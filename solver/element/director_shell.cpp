#include "solver/element/director_shell.hpp"

#include <array>

#include <Eigen/LU>

#include "mesh/lobatto.hpp"

namespace vrid {

namespace {

using Eigen::Matrix2d;

// Values and slopes of the nodes' 1-D polynomials at some points.
struct Line {
    MatrixXd N, dN;
};

ShellPoints shell_points(const Line& xi, const Line& eta, const Eigen::Matrix2Xd& X,
                         const RestShape& rest) {
    ShellPoints points;
    points.N = tensor(xi.N, eta.N);
    const MatrixXd dxi = tensor(xi.dN, eta.N);
    const MatrixXd deta = tensor(xi.N, eta.dN);
    const Index count = dxi.rows();
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

// Membrane component `row` of the turn and the covariant shear along `side` (2 x points; none if
// null) at tie points: by the unknowns, unknowns x points. The local strains go to `strain`.
void tie(const ShellPoints& points, const VectorXd& u, const Eigen::RowVector3d& membrane,
         const Eigen::Matrix2Xd* side, std::array<MatrixXd, 2>& ds, PointStrains& strain,
         double& least_c) {
    const LocalMotions motions = local_motions(points, u);
    const Index count = motions.cols();
    strain.resize(8, count);
    for (MatrixXd& one : ds) {
        one.resize(u.size(), count);
    }
    for (Index p = 0; p < count; ++p) {
        const LocalStrain local =
            local_strain(motions.col(p), points.frame[static_cast<std::size_t>(p)]);
        least_c = local.c > least_c ? least_c : local.c; // NaN comes through
        strain.col(p) = local.s;
        by_unknowns<1>(points, p, membrane * local.ds.topRows<3>(), ds[0].col(p));
        if (side != nullptr) {
            const Eigen::RowVector2d along((*side)(1, p), (*side)(0, p)); // yz, xz
            by_unknowns<1>(points, p, along * local.ds.bottomRows<2>(), ds[1].col(p));
        }
    }
}

} // namespace

LocalMotions local_motions(const ShellPoints& points, const VectorXd& u) {
    const Eigen::Map<const Eigen::Matrix<double, unknowns_per_node, Eigen::Dynamic>> motion(
        u.data(), unknowns_per_node, points.N.cols());
    LocalMotions q(15, points.N.rows());
    q.topRows<5>().noalias() = motion * points.N.transpose();
    q.middleRows<5>(5).noalias() = motion * points.Gx.transpose();
    q.bottomRows<5>().noalias() = motion * points.Gy.transpose();
    return q;
}

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

PointStrains tied_strains(const ReferenceElement& r, const ShellTables& t,
                          const PointFields& local) {
    const auto shear = [](const PointStrains& strain, const Eigen::Matrix2Xd& side) -> VectorXd {
        return strain.row(6).cwiseProduct(side.row(1)) + strain.row(7).cwiseProduct(side.row(0));
    };
    Eigen::Matrix<double, Eigen::Dynamic, 5> tied(r.m, 5); // along e_11 e_22 2e_12 g_xi g_eta
    tied.col(0) = t.from_xi * (t.turn.row(0) * local.xi_tie.topRows<3>()).transpose();
    tied.col(1) = t.from_eta * (t.turn.row(1) * local.eta_tie.topRows<3>()).transpose();
    tied.col(2) = t.from_both * (t.turn.row(2) * local.both_tie.topRows<3>()).transpose();
    tied.col(3) = t.from_xi * shear(local.xi_tie, t.xi_tie.xi);
    tied.col(4) = t.from_eta * shear(local.eta_tie, t.eta_tie.eta);
    PointStrains all(8, r.m);
    all.topRows<3>() = t.turn.inverse() * tied.leftCols<3>().transpose();
    all.middleRows<3>(3) = local.rule.middleRows<3>(3);
    for (Index p = 0; p < r.m; ++p) {
        all.col(p).tail<2>() = shear_turn(t.rule, p) * tied.row(p).tail<2>().transpose();
    }
    return all;
}

PointFields point_stresses(const ReferenceElement& r, const ShellTables& t,
                           const PointStrains& resultant) {
    PointFields all{PointStrains::Zero(8, r.m), {}, {}, {}};
    Eigen::Matrix<double, 5, Eigen::Dynamic> tied(5, r.m); // along e_11 e_22 2e_12 g_xi g_eta
    const Eigen::Matrix3d back = t.turn.inverse().transpose();
    for (Index p = 0; p < r.m; ++p) {
        const Strain8 weighted = t.weight(p) * resultant.col(p);
        all.rule.col(p).segment<3>(3) = weighted.segment<3>(3);
        tied.col(p) << back * weighted.head<3>(),
            shear_turn(t.rule, p).transpose() * weighted.tail<2>();
    }
    const auto at_ties = [&](const MatrixXd& from, int membrane, const Eigen::Matrix2Xd* side) {
        const VectorXd along = from.transpose() * tied.row(membrane).transpose();
        PointStrains stress = PointStrains::Zero(8, from.cols());
        stress.topRows<3>() = t.turn.row(membrane).transpose() * along.transpose();
        if (side != nullptr) {
            const VectorXd shear = from.transpose() * tied.row(3 + membrane).transpose();
            stress.row(6) = side->row(1).cwiseProduct(shear.transpose());
            stress.row(7) = side->row(0).cwiseProduct(shear.transpose());
        }
        return stress;
    };
    all.xi_tie = at_ties(t.from_xi, 0, &t.xi_tie.xi);
    all.eta_tie = at_ties(t.from_eta, 1, &t.eta_tie.eta);
    all.both_tie = at_ties(t.from_both, 2, nullptr);
    return all;
}

ShellStrains shell_strains(const ReferenceElement& r, const ShellTables& t, const VectorXd& u) {
    ShellStrains all{{}, MatrixXd(8 * r.m, u.size()), 1};
    PointFields strain;
    std::array<MatrixXd, 2> xi;
    std::array<MatrixXd, 2> eta;
    std::array<MatrixXd, 2> both;
    tie(t.xi_tie, u, t.turn.row(0), &t.xi_tie.xi, xi, strain.xi_tie, all.least_c);
    tie(t.eta_tie, u, t.turn.row(1), &t.eta_tie.eta, eta, strain.eta_tie, all.least_c);
    tie(t.both_tie, u, t.turn.row(2), nullptr, both, strain.both_tie, all.least_c);
    const Eigen::Matrix3d back = t.turn.inverse();
    // unknowns x points
    const std::array<MatrixXd, 5> ds{xi[0] * t.from_xi.transpose(), eta[0] * t.from_eta.transpose(),
                                     both[0] * t.from_both.transpose(),
                                     xi[1] * t.from_xi.transpose(),
                                     eta[1] * t.from_eta.transpose()};
    const LocalMotions motions = local_motions(t.rule, u);
    strain.rule.resize(8, r.m);
    Eigen::Matrix<double, Eigen::Dynamic, 8> here(u.size(), 8); // of a point: written side by side
    for (Index p = 0; p < r.m; ++p) {
        const LocalStrain local =
            local_strain(motions.col(p), t.rule.frame[static_cast<std::size_t>(p)]);
        all.least_c = local.c > all.least_c ? all.least_c : local.c;
        strain.rule.col(p) = local.s;
        const Matrix2d shear = shear_turn(t.rule, p);
        for (Index i = 0; i < 3; ++i) {
            here.col(i) =
                back(i, 0) * ds[0].col(p) + back(i, 1) * ds[1].col(p) + back(i, 2) * ds[2].col(p);
        }
        by_unknowns<3>(t.rule, p, local.ds.middleRows<3>(3), here.middleCols<3>(3));
        here.col(6) = shear(0, 0) * ds[3].col(p) + shear(0, 1) * ds[4].col(p);
        here.col(7) = shear(1, 0) * ds[3].col(p) + shear(1, 1) * ds[4].col(p);
        all.ds.middleRows<8>(8 * p) = here.transpose();
    }
    all.strain = tied_strains(r, t, strain);
    return all;
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
