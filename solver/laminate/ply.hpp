#pragma once

#include <cmath>

#include <Eigen/LU>

#include "mesh/board/cure.hpp"
#include "mesh/board/eigen_names.hpp"
#include "mesh/board/material.hpp"
#include "solver/laminate/dual.hpp"

namespace vrid {

template <class T> using Matrix2 = Eigen::Matrix<T, 2, 2>;
template <class T> using Matrix3 = Eigen::Matrix<T, 3, 3>;
template <class T> using Vector3 = Eigen::Matrix<T, 3, 1>;

/// Engineering constants of a ply in its own axes [Pa, kg/m3, 1/K]; T may be a dual number. What
/// the ply wants to be longer at C degrees Celsius after the press is offset + alpha C
/// (free_offset).
template <class T> struct PlyConstants {
    // T(0), not T{}: a dual number's derivatives would be left as they are
    T E1 = T(0), E2 = T(0), nu12 = T(0), G12 = T(0), G13 = T(0), G23 = T(0);
    T density = T(0), alpha1 = T(0), alpha2 = T(0);
    T offset1 = T(0), offset2 = T(0); ///< free strain at 0 degrees Celsius
};

template <class T>
PlyConstants<T> ply_constants(const Material& material, const BoardReading<T>& read = {}) {
    return {read(material.E1),      read(material.E2),     read(material.nu12),
            read(material.G12),     read(material.G13),    read(material.G23),
            read(material.density), read(material.alpha1), read(material.alpha2)};
}

/// Free strain f = alpha (C - C0) - shrink + swell m of a ply in its own axes (1, 2), at C = 0. C0
/// is where it holds no stress: the laminate's temperature, or its own where that is lower
/// (`holder`: whose own, for a fibre its resin).
template <class T>
void set_free_offset(PlyConstants<T>& ply, const Material& material, const Material& holder,
                     const Cure& cure, const BoardReading<T>& read) {
    const bool own = holder.stress_free && *holder.stress_free < cure.stress_free;
    const T from = read(own ? *holder.stress_free : cure.stress_free);
    const T moisture = read(cure.moisture);
    ply.offset1 = read(material.swell1) * moisture - read(material.shrink1) - ply.alpha1 * from;
    ply.offset2 = read(material.swell2) * moisture - read(material.shrink2) - ply.alpha2 * from;
}

/// What a creeping plastic still shows after hours: `slow` of its stiffness.
template <class T>
void slow_down(PlyConstants<T>& ply, const Material& material, const BoardReading<T>& read) {
    const T share = read(material.slow);
    for (T* modulus : {&ply.E1, &ply.E2, &ply.G12, &ply.G13, &ply.G23}) {
        *modulus *= share;
    }
}

/// Plane-stress reduced stiffness in ply axes (11, 22, 12) [Pa]. [Jones] eq. 2.66.
template <class T> Matrix3<T> Q(const PlyConstants<T>& ply) {
    const T nu21 = ply.nu12 * ply.E2 / ply.E1;
    const T scale = T(1) / (T(1) - ply.nu12 * nu21);
    Matrix3<T> q;
    q << ply.E1 * scale, ply.nu12 * ply.E2 * scale, T(0), //
        ply.nu12 * ply.E2 * scale, ply.E2 * scale, T(0),  //
        T(0), T(0), ply.G12;
    return q;
}

/// Engineering strains (11, 22, 12) in ply axes from (x, y, xy) in board axes for a ply turned by
/// `angle` [rad] from +x towards +y. [Jones] eq. 2.74 with the Reuter matrix folded in.
template <class T> Matrix3<T> strain_turn(const T& angle) {
    using std::cos;
    using std::sin;
    const T c = cos(angle);
    const T s = sin(angle);
    Matrix3<T> turn;
    turn << c * c, s * s, s * c, //
        s * s, c * c, -(s * c),  //
        T(-2) * s * c, T(2) * s * c, c * c - s * s;
    return turn;
}

/// Qbar: reduced stiffness in board axes (x, y, xy) [Pa]. [Jones] eq. 2.80.
template <class T> Matrix3<T> Qbar(const PlyConstants<T>& ply, const T& angle) {
    const Matrix3<T> turn = strain_turn(angle);
    return turn.transpose() * Q(ply) * turn;
}

/// Transverse shear compliance in board axes, order (yz, xz) [1/Pa]; diagonal (1/G23, 1/G13) in
/// ply axes, turned as a tensor. [Reddy] eq. 3.3.
template <class T> Matrix2<T> shear_compliance(const PlyConstants<T>& ply, const T& angle) {
    using std::cos;
    using std::sin;
    const T c = cos(angle);
    const T s = sin(angle);
    const T s44 = T(1) / ply.G23;
    const T s55 = T(1) / ply.G13;
    Matrix2<T> compliance;
    compliance(0, 0) = c * c * s44 + s * s * s55;
    compliance(1, 1) = s * s * s44 + c * c * s55;
    compliance(0, 1) = compliance(1, 0) = c * s * (s55 - s44);
    return compliance;
}

/// Strains along and across a ply as engineering strain in board axes (x, y, xy).
template <class T> Vector3<T> turned_strain(const T& along, const T& across, const T& angle) {
    using std::cos;
    using std::sin;
    const T c = cos(angle);
    const T s = sin(angle);
    return {c * c * along + s * s * across, s * s * along + c * c * across,
            T(2) * c * s * (along - across)};
}

/// Thermal expansion in board axes (x, y, xy) as engineering strain per kelvin.
template <class T> Vector3<T> expansion(const PlyConstants<T>& ply, const T& angle) {
    return turned_strain(ply.alpha1, ply.alpha2, angle);
}

} // namespace vrid
