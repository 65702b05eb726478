#include "solver/element/local_strain.hpp"

#include <cmath>

namespace vrid {

namespace {

using Eigen::Matrix2d;
using Eigen::Vector3d;
using Matrix12 = Eigen::Matrix<double, 12, 12>;
using Map = Eigen::Matrix<double, 12, 15>;

// a1, a2 in (t, e_y, n), then bx by, their d/dx, their d/dy: what strains are functions of. They
// are linear in the local motion; this is by what.
Map to_local_frame(const RestFrame& f) {
    Map map = Map::Zero();
    for (int side = 0; side < 2; ++side) { // r,x and r,y
        const int to = 3 * side;
        const int from = 5 * (side + 1);
        map(to, from) = f.C;
        map(to, from + 2) = f.S;
        map(to + 1, from + 1) = 1;
        map(to + 2, from) = -f.S;
        map(to + 2, from + 2) = f.C;
    }
    for (int part = 0; part < 3; ++part) {
        map(6 + 2 * part, 5 * part + 3) = 1;
        map(7 + 2 * part, 5 * part + 4) = 1;
    }
    return map;
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

Director director(const Eigen::Matrix<double, 12, 1>& z, const RestFrame& f, const Normal& n) {
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

Eigen::Matrix<double, 12, 1> local_values(const Map& map, const LocalMotion& q) {
    return map * q; // a1 less t, a2 less e_y
}

} // namespace

LocalStrain local_strain(const LocalMotion& q, const RestFrame& f) {
    const Map map = to_local_frame(f);
    const Eigen::Matrix<double, 12, 1> z = local_values(map, q);
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
    local.ds.noalias() = dz * map;
    return local;
}

Eigen::Matrix<double, 15, 15> local_curvature(const LocalMotion& q, const RestFrame& f,
                                              const Strain8& stress) {
    const Map map = to_local_frame(f);
    const Eigen::Matrix<double, 12, 1> z = local_values(map, q);
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
    Matrix12 H = Matrix12::Zero();
    H.block<3, 3>(0, 0).diagonal().setConstant(stress(0) + f.kap * Mx);
    H.block<3, 3>(3, 3).diagonal().setConstant(stress(1));
    H.block<3, 3>(0, 3).diagonal().setConstant(stress(2) + f.kap * Mxy / 2);
    H.block<3, 6>(0, 6) = Mx * r.dx_b + Mxy * r.dy_b + Qxz * r.d_b;
    H.block<3, 6>(3, 6) = My * r.dy_b + Mxy * r.dx_b + Qyz * r.d_b;
    // second derivatives of d, d,x and d,y come by c alone
    const double of_c = Qxz * a1(2) + Qyz * a2(2) - f.kap * (Mx * a1(0) + Mxy * a2(0));
    const double of_cx = Mx * a1(2) + Mxy * a2(2);
    const double of_cy = Mxy * a1(2) + My * a2(2);
    H.block<2, 2>(6, 6) = of_c * n.bend + of_cx * third(n, b, z.segment<2>(8)) +
                          of_cy * third(n, b, z.segment<2>(10));
    H.block<2, 2>(6, 8) = of_cx * n.bend;
    H.block<2, 2>(6, 10) = of_cy * n.bend;
    const Matrix12 full = H.selfadjointView<Eigen::Upper>();
    return map.transpose() * full * map;
}

} // namespace vrid
