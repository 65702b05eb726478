#pragma once

#include <vector>

#include "solver/laminate/ply.hpp"

namespace vrid {

/// One ply as the section needs it: constants already turned into board axes.
template <class T> struct Lamina {
    Matrix3<T> Qbar;                        ///< (x, y, xy) [Pa]
    Matrix2<T> compliance;                  ///< transverse shear, (yz, xz) [1/Pa]
    Vector3<T> expansion;                   ///< (x, y, xy) [1/K]
    T density = T(0);                       ///< [kg/m3]
    T thickness = T(0);                     ///< [m]
    Vector3<T> offset = Vector3<T>::Zero(); ///< free strain at 0 degrees Celsius (x, y, xy)
};

/// What a ply out of the press wants to be longer at a temperature [deg C], (x, y, xy): its stress
/// is Qbar (e + z k - free_strain). Zero for a board without a cure, expansions apart.
template <class T> Vector3<T> free_strain(const Lamina<T>& ply, double celsius) {
    return ply.offset + ply.expansion * T(celsius);
}

template <class T>
Lamina<T> lamina(const PlyConstants<T>& ply, const T& angle, const T& thickness) {
    return {Qbar(ply, angle),
            shear_compliance(ply, angle),
            expansion(ply, angle),
            ply.density,
            thickness,
            turned_strain(ply.offset1, ply.offset2, angle)};
}

/// The laminate at a point, about the reference plane z = 0 at the running surface.
/// N = A e + B k, M = B e + D k, Q = S g; shear order (yz, xz).
template <class T> struct Section {
    Matrix3<T> A = Matrix3<T>::Zero();  ///< [N/m]
    Matrix3<T> B = Matrix3<T>::Zero();  ///< [N]
    Matrix3<T> D = Matrix3<T>::Zero();  ///< [N m]
    Matrix2<T> S = Matrix2<T>::Zero();  ///< [N/m]
    T thickness = T(0);                 ///< [m]
    T I0 = T(0), I1 = T(0), I2 = T(0);  ///< int rho (1, z, z^2) dz [kg/m2, kg/m, kg]
    Vector3<T> NT = Vector3<T>::Zero(); ///< int Qbar alpha dz, per kelvin [N/m/K]
    Vector3<T> MT = Vector3<T>::Zero(); ///< int Qbar alpha z dz, per kelvin [N/K]
    Vector3<T> N0 = Vector3<T>::Zero(); ///< int Qbar f dz of the free strain at 0 deg C [N/m]
    Vector3<T> M0 = Vector3<T>::Zero(); ///< the same, f z [N]
};

/// Integrates a stack, listed upwards from z = 0. Plies of zero thickness count for nothing.
///
/// S is energy-consistent (no fixed 5/6), after the idea of [Whitney]: unit Mx,x = Qx and
/// My,y = Qy at zero membrane force bend the laminate through the inverse ABD; equilibrium of
/// slices gives tau_xz = - int Qbar(1,:) (e + z k) dz and tau_yz = - int Qbar(2,:) (e + z k) dz;
/// their complementary energy, integrated exactly, is 1/2 Q^T S^-1 Q.
template <class T> Section<T> section(const std::vector<Lamina<T>>& stack) {
    Section<T> s;
    T z = T(0);
    for (const Lamina<T>& layer : stack) {
        const T t = layer.thickness;
        const T first = t * (z + t / T(2));                  // int z dz
        const T second = t * (z * z + z * t + t * t / T(3)); // int z^2 dz
        s.A += layer.Qbar * t;
        s.B += layer.Qbar * first;
        s.D += layer.Qbar * second;
        s.NT += layer.Qbar * layer.expansion * t;
        s.MT += layer.Qbar * layer.expansion * first;
        s.N0 += layer.Qbar * layer.offset * t;
        s.M0 += layer.Qbar * layer.offset * first;
        s.I0 += layer.density * t;
        s.I1 += layer.density * first;
        s.I2 += layer.density * second;
        z += t;
    }
    s.thickness = z;

    // Membrane strain and curvature under unit Mx (column 0) and My (column 1) with N = 0.
    const Matrix3<T> minus_AinvB = -(s.A.inverse() * s.B);
    const Matrix3<T> Dstar = s.D + s.B * minus_AinvB;
    const Eigen::Matrix<T, 3, 2> k = Dstar.inverse().template leftCols<2>();
    const Eigen::Matrix<T, 3, 2> e = minus_AinvB * k;

    // Shear flow in a layer from its bottom: a + b zeta + c zeta^2, row 0 tau_yz (unit Qy),
    // row 1 tau_xz (unit Qx).
    Matrix2<T> compliance = Matrix2<T>::Zero();
    Eigen::Matrix<T, 2, 1> a = Eigen::Matrix<T, 2, 1>::Zero();
    z = T(0);
    for (const Lamina<T>& layer : stack) {
        const T t = layer.thickness;
        Eigen::Matrix<T, 2, 1> b;
        Eigen::Matrix<T, 2, 1> c;
        for (int i = 0; i < 2; ++i) {
            const int bending = 1 - i; // Qy goes with My (column 1), Qx with Mx (column 0)
            const auto row = layer.Qbar.row(bending);
            b(i) = -(row.dot(e.col(bending) + z * k.col(bending)));
            c(i) = -(row.dot(k.col(bending))) / T(2);
        }
        for (int i = 0; i < 2; ++i) {
            for (int j = i; j < 2; ++j) {
                const T work =
                    t *
                    (a(i) * a(j) +
                     t * ((a(i) * b(j) + b(i) * a(j)) / T(2) +
                          t * ((b(i) * b(j) + a(i) * c(j) + c(i) * a(j)) / T(3) +
                               t * ((b(i) * c(j) + c(i) * b(j)) / T(4) + t * c(i) * c(j) / T(5)))));
                compliance(i, j) += layer.compliance(i, j) * work;
            }
        }
        a += t * b + t * t * c;
        z += t;
    }
    compliance(1, 0) = compliance(0, 1);
    s.S = compliance.inverse();
    return s;
}

// Compiled once: most files see this header.
extern template Section<double> section(const std::vector<Lamina<double>>& stack);

} // namespace vrid
