#include "solver/element/plate.hpp"

#include <array>
#include <cassert>
#include <utility>

#include <Eigen/LU>

namespace vrid {

namespace {

// Coordinates' derivatives by xi and eta at the points where a covariant shear is sampled.
// For g_xi: tie point (i, j) is Gauss point i in xi and node j in eta, column j p + i.
// For g_eta the roles are exchanged: node i in xi, Gauss point j in eta, column i p + j.
struct TieSlopes {
    Eigen::Matrix2Xd by_xi, by_eta;
};

TieSlopes tie_slopes(const ReferenceElement& r, const Eigen::Matrix2Xd& X) {
    const int k = r.p + 1;
    TieSlopes slopes{Eigen::Matrix2Xd(2, r.p * k), Eigen::Matrix2Xd(2, r.p * k)};
    for (int j = 0; j < k; ++j) {
        Eigen::Matrix2Xd row(2, k);
        Eigen::Matrix2Xd column(2, k);
        for (int i = 0; i < k; ++i) {
            row.col(i) = X.col(j * k + i);
            column.col(i) = X.col(i * k + j);
        }
        slopes.by_xi.middleCols(j * r.p, r.p) = row * r.tie_dN.transpose();
        slopes.by_eta.middleCols(j * r.p, r.p) = column * r.tie_dN.transpose();
    }
    return slopes;
}

ReferenceElement tables_at(int p, Rule rule) {
    assert(p >= 1);
    ReferenceElement r;
    r.p = p;
    r.q = static_cast<int>(rule.point.size());
    r.rule = std::move(rule);
    const int k = p + 1;
    r.n = k * k;
    r.m = r.q * r.q;
    r.nodes = lobatto(k).point;
    r.N1 = lagrange(r.nodes, r.rule.point);
    r.dN1 = lagrange_slope(r.nodes, r.rule.point);
    r.N = tensor(r.N1, r.N1);
    r.dxi = tensor(r.dN1, r.N1);
    r.deta = tensor(r.N1, r.dN1);
    const VectorXd tie = gauss(p).point;
    r.tie_N = lagrange(r.nodes, tie);
    r.tie_dN = lagrange_slope(r.nodes, tie);
    r.tie_to_rule = lagrange(tie, r.rule.point);
    return r;
}

} // namespace

ReferenceElement reference_element(int p) {
    return tables_at(p, gauss(p + 1));
}

ReferenceElement reference_element(int p, const Eigen::VectorXd& points) {
    return tables_at(p, {points, Eigen::VectorXd::Zero(points.size())});
}

ElementTables element_tables(const ReferenceElement& r, const Eigen::Matrix2Xd& X) {
    const int k = r.p + 1;
    ElementTables t;
    t.weight.resize(r.m);
    t.G.resize(2 * r.m, r.n);
    t.shear.resize(2 * r.m, 3 * r.n);
    const TieSlopes tie = tie_slopes(r, X);
    const MatrixXd X_xi = r.dxi * X.transpose();   // m x 2
    const MatrixXd X_eta = r.deta * X.transpose(); // m x 2
    MatrixXd cov_xi(3, r.n);
    MatrixXd cov_eta(3, r.n);
    for (int b = 0; b < r.q; ++b) {
        for (int a = 0; a < r.q; ++a) {
            const int point = b * r.q + a;
            Eigen::Matrix2d J;
            J << X_xi(point, 0), X_xi(point, 1), X_eta(point, 0), X_eta(point, 1);
            const double det = J.determinant();
            assert(det > 0);
            const Eigen::Matrix2d Jinv = J.inverse();
            t.weight(point) = r.rule.weight(a) * r.rule.weight(b) * det;
            t.G.row(point) = Jinv(0, 0) * r.dxi.row(point) + Jinv(0, 1) * r.deta.row(point);
            t.G.row(r.m + point) = Jinv(1, 0) * r.dxi.row(point) + Jinv(1, 1) * r.deta.row(point);
            // Tying leaves the w part as it is: its derivative along the shear has degree p - 1,
            // which p samples reproduce.
            cov_xi.row(0) = r.dxi.row(point);
            cov_eta.row(0) = r.deta.row(point);
            for (int j = 0; j < k; ++j) {
                for (int i = 0; i < k; ++i) {
                    Eigen::Vector2d at_xi = Eigen::Vector2d::Zero();
                    Eigen::Vector2d at_eta = Eigen::Vector2d::Zero();
                    for (int s = 0; s < r.p; ++s) {
                        at_xi += r.tie_to_rule(a, s) * r.tie_N(s, i) * tie.by_xi.col(j * r.p + s);
                        at_eta += r.tie_to_rule(b, s) * r.tie_N(s, j) * tie.by_eta.col(i * r.p + s);
                    }
                    cov_xi.block<2, 1>(1, j * k + i) = r.N1(b, j) * at_xi;
                    cov_eta.block<2, 1>(1, j * k + i) = r.N1(a, i) * at_eta;
                }
            }
            for (int c = 0; c < 3; ++c) {
                t.shear.row(point).segment(c * r.n, r.n) =
                    Jinv(1, 0) * cov_xi.row(c) + Jinv(1, 1) * cov_eta.row(c);
                t.shear.row(r.m + point).segment(c * r.n, r.n) =
                    Jinv(0, 0) * cov_xi.row(c) + Jinv(0, 1) * cov_eta.row(c);
            }
        }
    }
    return t;
}

namespace {

// Weighted [C(r0,c0) Gx + C(r0,c1) Gy ; C(r1,c0) Gx + C(r1,c1) Gy]: the resultants (rows r0 above
// r1) that a motion with strain components c0 by d/dx and c1 by d/dy makes.
void resultant_rows(const ReferenceElement& r, const ElementTables& t,
                    std::span<const PlateStiffness> stiffness,
                    Eigen::Matrix3d PlateStiffness::*part, std::array<int, 4> index,
                    Eigen::Ref<MatrixXd> P) {
    const auto [r0, r1, c0, c1] = index;
    for (int point = 0; point < r.m; ++point) {
        const Eigen::Matrix3d C =
            t.weight(point) * (stiffness[static_cast<std::size_t>(point)].*part);
        const auto gx = t.G.row(point);
        const auto gy = t.G.row(r.m + point);
        P.row(point) = C(r0, c0) * gx + C(r0, c1) * gy;
        P.row(r.m + point) = C(r1, c0) * gx + C(r1, c1) * gy;
    }
}

// K_e of strains that are told by all unknowns.
void full_stiffness(const ElementTables& t, std::span<const PlateStiffness> stiffness,
                    MatrixXd& K) {
    MatrixXd resultant(t.strain.rows(), t.strain.cols());
    for (Index point = 0; point < t.weight.size(); ++point) {
        const PlateStiffness& c = stiffness[static_cast<std::size_t>(point)];
        Eigen::Matrix<double, 6, 6> ABD;
        ABD << c.A, c.B, c.B, c.D;
        const auto strain = t.strain.middleRows<8>(8 * point);
        auto here = resultant.middleRows<8>(8 * point);
        here.topRows<6>().noalias() = t.weight(point) * ABD * strain.topRows<6>();
        here.bottomRows<2>().noalias() = t.weight(point) * c.S * strain.bottomRows<2>();
    }
    // All of it by the dense library takes less time than Eigen's own product of one triangle.
    K.noalias() = t.strain.transpose() * resultant;
    K.triangularView<Eigen::StrictlyUpper>() = K.transpose();
}

// 3n x 3n: w bx by.
MatrixXd shear_stiffness(const ReferenceElement& r, const ElementTables& t,
                         std::span<const PlateStiffness> stiffness) {
    MatrixXd weighted(2 * r.m, 3 * r.n);
    for (int point = 0; point < r.m; ++point) {
        const Eigen::Matrix2d S = t.weight(point) * stiffness[static_cast<std::size_t>(point)].S;
        weighted.row(point) = S(0, 0) * t.shear.row(point) + S(0, 1) * t.shear.row(r.m + point);
        weighted.row(r.m + point) =
            S(1, 0) * t.shear.row(point) + S(1, 1) * t.shear.row(r.m + point);
    }
    return t.shear.transpose() * weighted;
}

} // namespace

void element_stiffness(const ReferenceElement& r, const ElementTables& t,
                       std::span<const PlateStiffness> stiffness, MatrixXd& K) {
    if (t.strain.size() > 0) {
        full_stiffness(t, stiffness, K);
        return;
    }
    const int n = r.n;
    // x-motions (u, bx) make strains (x by d/dx, xy by d/dy); y-motions (xy by d/dx, y by d/dy).
    // Row pairs likewise: (x, xy) meets an x-motion's gradient, (xy, y) a y-motion's.
    constexpr std::array<int, 4> xx{0, 2, 0, 2}, xy{0, 2, 2, 1}, yy{2, 1, 2, 1};
    MatrixXd P(2 * r.m, 9 * n);
    int column = 0;
    for (auto part : {&PlateStiffness::A, &PlateStiffness::B, &PlateStiffness::D}) {
        for (const auto& index : {xx, xy, yy}) {
            resultant_rows(r, t, stiffness, part, index, P.middleCols(column, n));
            column += n;
        }
    }
    const MatrixXd blocks = t.G.transpose() * P; // n x 9n: A B D times xx xy yy

    const MatrixXd shear = shear_stiffness(r, t, stiffness);
    K.resize(unknowns_per_node * n, unknowns_per_node * n);
    const auto block = [&](int part, int pair, int i, int j) {
        return blocks(i, (part * 3 + pair) * n + j);
    };
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            Eigen::Matrix<double, 5, 5> k;
            const auto fill = [&](int part, int row, int col) {
                k(row, col) = block(part, 0, i, j);
                k(row, col + 1) = block(part, 1, i, j);
                k(row + 1, col) = block(part, 1, j, i);
                k(row + 1, col + 1) = block(part, 2, i, j);
            };
            fill(0, 0, 0);
            fill(1, 0, 3);
            fill(1, 3, 0);
            fill(2, 3, 3);
            k.block<2, 1>(0, 2).setZero();
            k.block<1, 2>(2, 0).setZero();
            for (int a = 0; a < 3; ++a) {
                for (int b = 0; b < 3; ++b) {
                    const double s = shear(a * n + i, b * n + j);
                    if (a > 0 && b > 0) {
                        k(2 + a, 2 + b) += s;
                    } else {
                        k(2 + a, 2 + b) = s;
                    }
                }
            }
            K.block<5, 5>(5 * i, 5 * j) = k;
        }
    }
}

Eigen::Matrix<double, 8, Eigen::Dynamic>
element_strains(const ReferenceElement& r, const ElementTables& t, const VectorXd& u) {
    if (t.strain.size() > 0) {
        Eigen::Matrix<double, 8, Eigen::Dynamic> all(8, r.m);
        Eigen::Map<VectorXd>(all.data(), all.size()).noalias() = t.strain * u;
        return all;
    }
    const Eigen::Map<const MatrixXd> motion(u.data(), unknowns_per_node, r.n);
    const MatrixXd slope = t.G * motion.transpose(); // 2m x 5
    const auto dx = slope.topRows(r.m);
    const auto dy = slope.bottomRows(r.m);
    VectorXd bending(3 * r.n);
    for (int c = 0; c < 3; ++c) {
        bending.segment(c * r.n, r.n) = motion.row(2 + c).transpose();
    }
    const VectorXd shear = t.shear * bending;
    Eigen::Matrix<double, 8, Eigen::Dynamic> strain(8, r.m);
    for (int c = 0; c < 2; ++c) {
        const int first = 3 * c; // membrane from u v, curvature from bx by
        strain.row(first) = dx.col(first).transpose();
        strain.row(first + 1) = dy.col(first + 1).transpose();
        strain.row(first + 2) = (dy.col(first) + dx.col(first + 1)).transpose();
    }
    strain.row(6) = shear.head(r.m).transpose();
    strain.row(7) = shear.tail(r.m).transpose();
    return strain;
}

Eigen::Matrix<double, 8, Eigen::Dynamic>
element_resultants(std::span<const PlateStiffness> stiffness,
                   const Eigen::Matrix<double, 8, Eigen::Dynamic>& strain) {
    Eigen::Matrix<double, 8, Eigen::Dynamic> resultant(8, strain.cols());
    for (Index point = 0; point < strain.cols(); ++point) {
        const PlateStiffness& c = stiffness[static_cast<std::size_t>(point)];
        const Eigen::Vector3d e = strain.block<3, 1>(0, point);
        const Eigen::Vector3d k = strain.block<3, 1>(3, point);
        resultant.block<3, 1>(0, point) = c.A * e + c.B * k;
        resultant.block<3, 1>(3, point) = c.B * e + c.D * k;
        resultant.block<2, 1>(6, point) = c.S * strain.block<2, 1>(6, point);
    }
    return resultant;
}

VectorXd element_forces(const ReferenceElement& r, const ElementTables& t,
                        const Eigen::Matrix<double, 8, Eigen::Dynamic>& resultant) {
    const Eigen::Matrix<double, 8, Eigen::Dynamic> weighted = resultant * t.weight.asDiagonal();
    if (t.strain.size() > 0) {
        return t.strain.transpose() * Eigen::Map<const VectorXd>(weighted.data(), weighted.size());
    }
    MatrixXd flux = MatrixXd::Zero(2 * r.m, 5); // meets d/dx above d/dy of each unknown
    for (int c = 0; c < 2; ++c) {
        const int first = 3 * c;
        flux.col(first).head(r.m) = weighted.row(first).transpose();
        flux.col(first).tail(r.m) = weighted.row(first + 2).transpose();
        flux.col(first + 1).head(r.m) = weighted.row(first + 2).transpose();
        flux.col(first + 1).tail(r.m) = weighted.row(first + 1).transpose();
    }
    VectorXd shear(2 * r.m);
    shear << weighted.row(6).transpose(), weighted.row(7).transpose();
    const MatrixXd membrane = t.G.transpose() * flux;     // n x 5
    const VectorXd bending = t.shear.transpose() * shear; // 3n
    VectorXd force(unknowns_per_node * r.n);
    Eigen::Map<MatrixXd> by_node(force.data(), unknowns_per_node, r.n);
    by_node = membrane.transpose();
    for (int c = 0; c < 3; ++c) {
        by_node.row(2 + c) += bending.segment(c * r.n, r.n).transpose();
    }
    return force;
}

std::array<MatrixXd, 3> element_moments(const ReferenceElement& r, const ElementTables& t,
                                        const Eigen::Matrix3Xd& inertia) {
    std::array<MatrixXd, 3> moment;
    for (int c = 0; c < 3; ++c) {
        const VectorXd weight = t.weight.array() * inertia.row(c).transpose().array();
        moment[static_cast<std::size_t>(c)].noalias() =
            r.N.transpose() * (weight.asDiagonal() * r.N);
    }
    return moment;
}

} // namespace vrid
