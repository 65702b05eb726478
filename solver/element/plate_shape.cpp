#include "solver/element/plate_shape.hpp"

#include <Eigen/LU>

namespace vrid {

namespace {

using Eigen::Matrix2d;
using Eigen::Matrix2Xd;
using Strains = Eigen::Matrix<double, 8, Eigen::Dynamic>;

// A motion as the derivative needs it.
struct Motion {
    MatrixXd slope;     // 2m x 5: d/dx above d/dy of each unknown at the points
    Matrix2Xd rotation; // 2 x n: bx by at the nodes
    Strains strain, resultant;

    Motion(const ReferenceElement& r, const ElementTables& t,
           std::span<const PlateStiffness> stiffness, const VectorXd& u)
        : strain(element_strains(r, t, u)), resultant(element_resultants(stiffness, strain)) {
        const Eigen::Map<const MatrixXd> nodal(u.data(), unknowns_per_node, r.n);
        slope = t.G * nodal.transpose();
        rotation = nodal.bottomRows<2>();
    }
};

Matrix2d symmetric(const Strains& of, Index row, Index point) {
    Matrix2d m;
    m << of(row, point), of(row + 2, point), of(row + 2, point), of(row + 1, point);
    return m;
}

// d/dx above d/dy of two neighbouring unknowns: (derivative, component).
Matrix2d gradient(const Motion& of, Index first, Index point, Index m) {
    Matrix2d h;
    h << of.slope(point, first), of.slope(point, first + 1), of.slope(m + point, first),
        of.slope(m + point, first + 1);
    return h;
}

// Shear of the strains' or resultants' last rows as (xz, yz).
Eigen::Vector2d shear(const Strains& of, Index point) {
    return {of(7, point), of(6, point)};
}

// P with s . e' = P : L for the parts that go by -L: resultants of one motion, strains of other.
Matrix2d turned(const Motion& forces, const Motion& moved, Index point, Index m) {
    return -symmetric(forces.resultant, 0, point) * gradient(moved, 0, point, m).transpose() -
           symmetric(forces.resultant, 3, point) * gradient(moved, 3, point, m).transpose() -
           shear(forces.resultant, point) * shear(moved.strain, point).transpose();
}

// The samples of the shear follow the velocity: what the points' forces `pull` (2 x m, along xi
// and eta, weighted) of one motion make of the rotations of the other, added to the gradient.
void add_samples(const ReferenceElement& r, const Matrix2Xd& pull, const Matrix2Xd& rotation,
                 Matrix2Xd& gradient) {
    const int k = r.p + 1;
    for (int line = 0; line < k; ++line) {
        Matrix2Xd along_xi(2, k);
        Matrix2Xd along_eta(2, k);
        for (int i = 0; i < k; ++i) {
            along_xi.col(i) = rotation.col(line * k + i);
            along_eta.col(i) = rotation.col(i * k + line);
        }
        VectorXd sum_xi = VectorXd::Zero(r.p); // forces at this line's samples
        VectorXd sum_eta = VectorXd::Zero(r.p);
        for (int b = 0; b < r.q; ++b) {
            for (int a = 0; a < r.q; ++a) {
                const int point = b * r.q + a;
                sum_xi += r.N1(b, line) * pull(0, point) * r.tie_to_rule.row(a).transpose();
                sum_eta += r.N1(a, line) * pull(1, point) * r.tie_to_rule.row(b).transpose();
            }
        }
        const Matrix2Xd at_xi = along_xi * r.tie_N.transpose() * sum_xi.asDiagonal() * r.tie_dN;
        const Matrix2Xd at_eta = along_eta * r.tie_N.transpose() * sum_eta.asDiagonal() * r.tie_dN;
        for (int i = 0; i < k; ++i) {
            gradient.col(line * k + i) += at_xi.col(i);
            gradient.col(i * k + line) += at_eta.col(i);
        }
    }
}

// J^-T times the shear forces at every point, weighted: along xi and eta.
Matrix2Xd pulls(const ReferenceElement& r, const ElementTables& t, const Matrix2Xd& X,
                const Motion& forces) {
    const MatrixXd X_xi = r.dxi * X.transpose();
    const MatrixXd X_eta = r.deta * X.transpose();
    Matrix2Xd pull(2, r.m);
    for (Index point = 0; point < r.m; ++point) {
        Matrix2d J;
        J.row(0) = X_xi.row(point);
        J.row(1) = X_eta.row(point);
        pull.col(point) =
            t.weight(point) * J.inverse().transpose() * shear(forces.resultant, point);
    }
    return pull;
}

} // namespace

Matrix2Xd element_shape_gradient(const ReferenceElement& r, const ElementTables& t,
                                 const Matrix2Xd& X, std::span<const PlateStiffness> stiffness,
                                 const VectorXd& left, const VectorXd& right) {
    const Motion a(r, t, stiffness, left);
    const Motion b(r, t, stiffness, right);
    Matrix2Xd gradient = Matrix2Xd::Zero(2, r.n);
    for (Index point = 0; point < r.m; ++point) {
        Matrix2d by_L = turned(a, b, point, r.m) + turned(b, a, point, r.m);
        by_L.diagonal().array() += a.resultant.col(point).dot(b.strain.col(point));
        gradient += t.weight(point) * (by_L.row(0).transpose() * t.G.row(point) +
                                       by_L.row(1).transpose() * t.G.row(r.m + point));
    }
    add_samples(r, pulls(r, t, X, a), b.rotation, gradient);
    add_samples(r, pulls(r, t, X, b), a.rotation, gradient);
    return gradient;
}

Matrix2Xd element_mass_gradient(const ReferenceElement& r, const ElementTables& t,
                                const Eigen::Matrix3Xd& inertia, const VectorXd& left,
                                const VectorXd& right) {
    const Eigen::Map<const MatrixXd> left_nodes(left.data(), unknowns_per_node, r.n);
    const Eigen::Map<const MatrixXd> right_nodes(right.data(), unknowns_per_node, r.n);
    const MatrixXd a = left_nodes * r.N.transpose(); // 5 x m
    const MatrixXd b = right_nodes * r.N.transpose();
    Matrix2Xd gradient = Matrix2Xd::Zero(2, r.n);
    for (Index point = 0; point < r.m; ++point) {
        const auto one = a.col(point);
        const auto other = b.col(point);
        const double energy =
            inertia(0, point) * one.head(3).dot(other.head(3)) +
            inertia(1, point) * (one.head(2).dot(other.tail(2)) + one.tail(2).dot(other.head(2))) +
            inertia(2, point) * one.tail(2).dot(other.tail(2));
        gradient.row(0) += t.weight(point) * energy * t.G.row(point);
        gradient.row(1) += t.weight(point) * energy * t.G.row(r.m + point);
    }
    return gradient;
}

} // namespace vrid
