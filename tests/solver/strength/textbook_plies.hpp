#pragma once

#include "solver/laminate/ply.hpp"
#include "solver/strength/ply_failure.hpp"

namespace vrid::tests {

// Tsai, Hahn (1980), from memory: carbon/epoxy, fibre volume fraction 0.70; E-glass/epoxy, 0.45.

inline PlyConstants<double> textbook_carbon() {
    PlyConstants<double> ply{181e9, 10.3e9, 0.28, 7.17e9, 7.17e9, 3.7e9};
    ply.alpha1 = 0.02e-6;
    ply.alpha2 = 22.5e-6;
    return ply;
}
inline PlyStrength textbook_carbon_strength() {
    return {1500e6, 1500e6, 40e6, 246e6, 68e6, {}, {}};
}
inline PlyConstants<double> textbook_glass() {
    PlyConstants<double> ply{38.6e9, 8.27e9, 0.26, 4.14e9, 4.14e9, 2.95e9};
    ply.alpha1 = 8.6e-6;
    ply.alpha2 = 22.1e-6;
    return ply;
}
inline PlyStrength textbook_glass_strength() {
    return {1062e6, 610e6, 31e6, 118e6, 72e6, {}, {}};
}

} // namespace vrid::tests
