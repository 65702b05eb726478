#pragma once

#include "solver/laminate/ply.hpp"

namespace vrid {

/// Halpin and Tsai's interpolation between resin and fibre modulus. [HalpinKardos] eq. 1.
template <class T> T halpin_tsai(const T& fibre, const T& resin, const T& fraction, const T& xi) {
    const T ratio = fibre / resin;
    const T eta = (ratio - T(1)) / (ratio + xi);
    return resin * (T(1) + xi * eta * fraction) / (T(1) - eta * fraction);
}

/// A unidirectional ply of fibre volume fraction `fraction` (0..1) from fibre and resin.
/// E1, nu12, density: rule of mixtures [Jones] ch. 3; E2 (xi = 2), G12 = G13 (xi = 1) and G23
/// (xi = 1 / (4 - 3 nu_m)) after Halpin and Tsai with the fibre's transverse constants
/// [HalpinKardos] (from memory); expansions after [Schapery],
/// and free offsets by the same weights.
template <class T>
PlyConstants<T> unidirectional_ply(const PlyConstants<T>& fibre, const PlyConstants<T>& resin,
                                   const T& fraction) {
    const T rest = T(1) - fraction;
    PlyConstants<T> ply;
    ply.E1 = fraction * fibre.E1 + rest * resin.E1;
    ply.nu12 = fraction * fibre.nu12 + rest * resin.nu12;
    ply.density = fraction * fibre.density + rest * resin.density;
    ply.E2 = halpin_tsai(fibre.E2, resin.E2, fraction, T(2));
    ply.G12 = halpin_tsai(fibre.G12, resin.G12, fraction, T(1));
    ply.G13 = ply.G12;
    ply.G23 = halpin_tsai(fibre.G23, resin.G23, fraction, T(T(1) / (T(4) - T(3) * resin.nu12)));
    const auto along = [&](const T& of_fibre, const T& of_resin) {
        return T((fraction * fibre.E1 * of_fibre + rest * resin.E1 * of_resin) / ply.E1);
    };
    const auto across = [&](const T& of_fibre, const T& of_resin, const T& of_ply) {
        return T(fraction * of_fibre * (T(1) + fibre.nu12) + rest * of_resin * (T(1) + resin.nu12) -
                 of_ply * ply.nu12);
    };
    ply.alpha1 = along(fibre.alpha1, resin.alpha1);
    ply.alpha2 = across(fibre.alpha2, resin.alpha1, ply.alpha1);
    ply.offset1 = along(fibre.offset1, resin.offset1);
    ply.offset2 = across(fibre.offset2, resin.offset1, ply.offset1);
    return ply;
}

/// Ply thickness [m] from fibre mass per area [kg/m2] and fibre density [kg/m3].
template <class T>
T ply_thickness(const T& areal_weight, const T& fibre_density, const T& fraction) {
    return areal_weight / (fibre_density * fraction);
}

} // namespace vrid
