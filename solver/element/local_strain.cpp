#include "solver/element/local_strain.hpp"

#include <cmath>

namespace vrid {

namespace {

using Eigen::Matrix2d;
using Eigen::Vector3d;
// a1, a2 in (t, e_y, n), then bx by, their d/dx, their d/dy: what strains are functions of.
using LocalValues = Eigen::Matrix<double, 12, 1>;

Vector3d in_frame(const RestFrame& f, const Vector3d& along_axes) {
    return {f.C * along_axes(0) + f.S * along_axes(2), along_axes(1),
            f.C * along_axes(2) - f.S * along_axes(0)};
}

LocalValues local_values(const LocalMotion& q, const RestFrame& f) { // a1 less t, a2 less e_y
    LocalValues z;
    z << in_frame(f, q.segment<3>(5)), in_frame(f, q.segment<3>(10)), q.segment<2>(3),
        q.segment<2>(8), q.segment<2>(13);
    return z;
}

// What is by in_frame's three, a row each, by the three along the axes.
template <int columns>
Eigen::Matrix<double, 3, columns> along_axes(const RestFrame& f,
                                             const Eigen::Matrix<double, 3, columns>& by_frame) {
    Eigen::Matrix<double, 3, columns> by_axes;
    by_axes << f.C * by_frame.row(0) - f.S * by_frame.row(2), by_frame.row(1),
        f.S * by_frame.row(0) + f.C * by_frame.row(2);
    return by_axes;
}

// c = sqrt(1 - bx^2 - by^2) with its derivatives by bx and by.
struct Normal {
    double c;
    Eigen::Vector2d slope;
    Matrix2d bend;
};

Normal normal_part(const Eigen::Vector2d& b) {
    Normal n;
    n.c = std::sqrt(1 - b.squaredNorm());
    n.slope = -b / n.c;
    n.bend = -(Matrix2d::Identity() + n.slope * n.slope.transpose()) / n.c;
    return n;
}

// Third derivatives of c contracted with one direction.
Matrix2d third(const Normal& n, const Eigen::Vector2d& b, const Eigen::Vector2d& p) {
    const double c3 = n.c * n.c * n.c;
    const double bp = b.dot(p);
    return -(p * b.transpose() + b * p.transpose() + bp * Matrix2d::Identity()) / c3 -
           3 * bp / (c3 * n.c * n.c) * b * b.transpose();
}

// Director, its d/dx and d/dy in (t, e_y, n), and their derivatives by the six director values.
struct Director {
    Vector3d d, dx, dy;
    Eigen::Matrix<double, 3, 6> d_b, dx_b, dy_b;
};

Director director(const LocalValues& z, const RestFrame& f, const Normal& n) {
    const Eigen::Vector2d b = z.segment<2>(6);
    const Eigen::Vector2d bx = z.segment<2>(8);
    const Eigen::Vector2d by = z.segment<2>(10);
    Director r;
    r.d << b, n.c;
    r.dx << bx(0) - f.kap * n.c, bx(1), n.slope.dot(bx) + f.kap * b(0);
    r.dy << by, n.slope.dot(by);
    r.d_b.setZero();
    r.dx_b.setZero();
    r.dy_b.setZero();
    r.d_b.topLeftCorner<2, 2>().setIdentity();
    r.d_b.block<1, 2>(2, 0) = n.slope.transpose();
    r.dx_b.block<1, 2>(0, 0) = -f.kap * n.slope.transpose();
    r.dx_b.block<1, 2>(2, 0) = (n.bend * bx).transpose();
    r.dx_b(2, 0) += f.kap;
    r.dx_b.block<2, 2>(0, 2).setIdentity();
    r.dx_b.block<1, 2>(2, 2) = n.slope.transpose();
    r.dy_b.block<1, 2>(2, 0) = (n.bend * by).transpose();
    r.dy_b.block<2, 2>(0, 4).setIdentity();
    r.dy_b.block<1, 2>(2, 4) = n.slope.transpose();
    return r;
}

} // namespace

LocalStrain local_strain(const LocalMotion& q, const RestFrame& f) {
    const LocalValues z = local_values(q, f);
    const Vector3d h1 = z.head<3>(); // a1 = t + h1, a2 = e_y + h2
    const Vector3d h2 = z.segment<3>(3);
    const Vector3d a1 = h1 + Vector3d::UnitX();
    const Vector3d a2 = h2 + Vector3d::UnitY();
    const Normal n = normal_part(z.segment<2>(6));
    const Director r = director(z, f, n);
    LocalStrain local;
    local.c = n.c;
    const double e_x = h1(0) + h1.squaredNorm() / 2;
    const double e_y = h2(1) + h2.squaredNorm() / 2;
    const double e_xy = h2(0) + h1(1) + h1.dot(h2);
    local.s << e_x, e_y, e_xy, a1.dot(r.dx) + f.kap + f.kap * e_x, a2.dot(r.dy),
        a1.dot(r.dy) + a2.dot(r.dx) + f.kap * e_xy / 2, a2.dot(r.d), a1.dot(r.d);
    Eigen::Matrix<double, 8, 12> dz = Eigen::Matrix<double, 8, 12>::Zero();
    dz.block<1, 3>(0, 0) = a1.transpose();
    dz.block<1, 3>(1, 3) = a2.transpose();
    dz.block<1, 3>(2, 0) = a2.transpose();
    dz.block<1, 3>(2, 3) = a1.transpose();
    dz.block<1, 3>(3, 0) = (r.dx + f.kap * a1).transpose();
    dz.block<1, 6>(3, 6) = a1.transpose() * r.dx_b;
    dz.block<1, 3>(4, 3) = r.dy.transpose();
    dz.block<1, 6>(4, 6) = a2.transpose() * r.dy_b;
    dz.block<1, 3>(5, 0) = (r.dy + f.kap / 2 * a2).transpose();
    dz.block<1, 3>(5, 3) = (r.dx + f.kap / 2 * a1).transpose();
    dz.block<1, 6>(5, 6) = a1.transpose() * r.dy_b + a2.transpose() * r.dx_b;
    dz.block<1, 3>(6, 3) = r.d.transpose();
    dz.block<1, 6>(6, 6) = a2.transpose() * r.d_b;
    dz.block<1, 3>(7, 0) = r.d.transpose();
    dz.block<1, 6>(7, 6) = a1.transpose() * r.d_b;
    local.ds.leftCols<3>().setZero(); // moves strain nothing
    for (int part = 0; part < 3; ++part) {
        local.ds.middleCols<2>(5 * part + 3) = dz.middleCols<2>(6 + 2 * part);
    }
    for (int side = 0; side < 2; ++side) { // r,x and r,y
        const Eigen::Matrix<double, 3, 8> by_frame = dz.middleCols<3>(3 * side).transpose();
        local.ds.middleCols<3>(5 * side + 5) = along_axes(f, by_frame).transpose();
    }
    return local;
}

LocalCurvature local_curvature(const LocalMotion& q, const RestFrame& f, const Strain8& stress) {
    const LocalValues z = local_values(q, f);
    const Vector3d a1 = z.head<3>() + Vector3d::UnitX();
    const Vector3d a2 = z.segment<3>(3) + Vector3d::UnitY();
    const Eigen::Vector2d b = z.segment<2>(6);
    const Normal n = normal_part(b);
    const Director r = director(z, f, n);
    const double Mx = stress(3);
    const double My = stress(4);
    const double Mxy = stress(5);
    const double Qyz = stress(6);
    const double Qxz = stress(7);
    LocalCurvature H;
    H.xx = stress(0) + f.kap * Mx;
    H.yy = stress(1);
    H.xy = stress(2) + f.kap * Mxy / 2;
    using ByDirector = Eigen::Matrix<double, 3, 6>;
    H.mixed << along_axes<6>(f, ByDirector(Mx * r.dx_b + Mxy * r.dy_b + Qxz * r.d_b)),
        along_axes<6>(f, ByDirector(My * r.dy_b + Mxy * r.dx_b + Qyz * r.d_b));
    // second derivatives of d, d,x and d,y come by c alone
    const double of_c = Qxz * a1(2) + Qyz * a2(2) - f.kap * (Mx * a1(0) + Mxy * a2(0));
    const double of_cx = Mx * a1(2) + Mxy * a2(2);
    const double of_cy = Mxy * a1(2) + My * a2(2);
    H.director.setZero();
    H.director.block<2, 2>(0, 0) = of_c * n.bend + of_cx * third(n, b, z.segment<2>(8)) +
                                   of_cy * third(n, b, z.segment<2>(10));
    H.director.block<2, 2>(0, 2) = of_cx * n.bend;
    H.director.block<2, 2>(0, 4) = of_cy * n.bend;
    H.director.bottomLeftCorner<4, 2>() = H.director.topRightCorner<2, 4>().transpose();
    return H;
}

} // namespace vrid
