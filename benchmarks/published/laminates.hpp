#pragma once

#include <vector>

#include "benchmarks/published/plate.hpp"

namespace vrid::published {

/// The material of Pagano and Reddy: E1 25, E2 1, nu12 0.25, G12 = G13 0.5, G23 0.2.
inline const PlyConstants<double> pagano_ply{25, 1, 0.25, 0.5, 0.5, 0.2, 1, 0, 0};

/// One ply of a stack: constants, angle [degrees], thickness.
struct StackPly {
    PlyConstants<double> ply;
    double degrees, thickness;
};

/// Even plies of total thickness h.
std::vector<StackPly> even_stack(const std::vector<double>& degrees, double h);

/// Pagano's sandwich of thickness h: faces of that material 0.1 h thick, core E 0.04, G 0.06.
std::vector<StackPly> pagano_sandwich(double h);

/// About mid-plane. `kappa` above 0: S = kappa x the layers' shear stiffness instead of our own.
Section<double> stack_section(const std::vector<StackPly>& stack, double kappa = 0);

/// A hard supported plate a x b. Edges hold in plane the tangential motion (cross-ply, SS-1) or the
/// normal one (angle-ply, SS-2).
Bent bent_laminate(const Section<double>& section, double a, double b, bool angle_ply,
                   const Pressure& pressure, int degree);
/// Its centre deflection.
double laminate_deflection(const Section<double>& section, double a, double b, bool angle_ply,
                           const Pressure& pressure, int degree);

} // namespace vrid::published
