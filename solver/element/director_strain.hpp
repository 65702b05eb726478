#pragma once

#include <array>

#include "solver/element/taylor.hpp"

namespace vrid {

/// What the strains of the director shell at a point are functions of, in (t, e_y, n): a1 less t,
/// a2 less e_y, then bx by, their d/dx, their d/dy. T: double, or Taylor along a line of motions.
template <class T> struct LocalShape {
    std::array<T, 3> h1, h2;
    std::array<T, 2> b, b_x, b_y;
};

/// a1, a2, the director and its d/dx and d/dy in (t, e_y, n).
template <class T> struct ShapeVectors {
    std::array<T, 3> a1, a2, d, d_x, d_y;
    T over_c; ///< 1 / c
};

template <class T, std::size_t n> T dot(const std::array<T, n>& a, const std::array<T, n>& b) {
    T sum = a[0] * b[0];
    for (std::size_t i = 1; i < n; ++i) {
        sum = sum + a[i] * b[i];
    }
    return sum;
}

template <class T> ShapeVectors<T> shape_vectors(const LocalShape<T>& at, double kap) {
    const T c = root(-1.0 * dot(at.b, at.b) + 1.0);
    const T over_c = inverse(c);
    const T c_x = -1.0 * (dot(at.b, at.b_x) * over_c);
    const T c_y = -1.0 * (dot(at.b, at.b_y) * over_c);
    return {{at.h1[0] + 1.0, at.h1[1], at.h1[2]},
            {at.h2[0], at.h2[1] + 1.0, at.h2[2]},
            {at.b[0], at.b[1], c},
            {at.b_x[0] - kap * c, at.b_x[1], c_x + kap * at.b[0]},
            {at.b_y[0], at.b_y[1], c_y},
            over_c};
}

/// e_x e_y e_xy k_x k_y k_xy g_yz g_xz.
template <class T>
std::array<T, 8> director_strain(const LocalShape<T>& at, const ShapeVectors<T>& v, double kap) {
    const T e_x = at.h1[0] + 0.5 * dot(at.h1, at.h1);
    const T e_y = at.h2[1] + 0.5 * dot(at.h2, at.h2);
    const T e_xy = at.h2[0] + at.h1[1] + dot(at.h1, at.h2);
    return {e_x,
            e_y,
            e_xy,
            dot(v.a1, v.d_x) + kap * e_x + kap,
            dot(v.a2, v.d_y),
            dot(v.a1, v.d_y) + dot(v.a2, v.d_x) + (kap / 2) * e_xy,
            dot(v.a2, v.d),
            dot(v.a1, v.d)};
}

/// Derivative of stress . director_strain by the local shape, the stress held.
template <class T>
LocalShape<T> director_forces(const LocalShape<T>& at, const ShapeVectors<T>& v, double kap,
                              const std::array<T, 8>& stress) {
    const auto& [Nx, Ny, Nxy, Mx, My, Mxy, Qyz, Qxz] = stress;
    const T on_x = Nx + kap * Mx;
    const T on_xy = Nxy + (kap / 2) * Mxy;
    LocalShape<T> f;
    std::array<T, 3> on_d;
    std::array<T, 3> on_dx;
    std::array<T, 3> on_dy;
    for (std::size_t i = 0; i < 3; ++i) {
        f.h1[i] = on_x * v.a1[i] + on_xy * v.a2[i] + Mx * v.d_x[i] + Mxy * v.d_y[i] + Qxz * v.d[i];
        f.h2[i] = Ny * v.a2[i] + on_xy * v.a1[i] + My * v.d_y[i] + Mxy * v.d_x[i] + Qyz * v.d[i];
        on_d[i] = Qyz * v.a2[i] + Qxz * v.a1[i];
        on_dx[i] = Mx * v.a1[i] + Mxy * v.a2[i];
        on_dy[i] = My * v.a2[i] + Mxy * v.a1[i];
    }
    // c = sqrt(1 - b.b), c,x = - b.b,x / c and c,y likewise
    const T by_x = on_dx[2] * v.over_c;
    const T by_y = on_dy[2] * v.over_c;
    const T c_x = v.d_x[2] - kap * at.b[0];
    const T on_c = (on_d[2] - kap * on_dx[0] - c_x * by_x - v.d_y[2] * by_y) * v.over_c;
    for (std::size_t i = 0; i < 2; ++i) {
        f.b[i] = on_d[i] - at.b_x[i] * by_x - at.b_y[i] * by_y - at.b[i] * on_c;
        f.b_x[i] = on_dx[i] - at.b[i] * by_x;
        f.b_y[i] = on_dy[i] - at.b[i] * by_y;
    }
    f.b[0] = f.b[0] + kap * on_dx[2];
    return f;
}

} // namespace vrid
