#pragma once

#include <map>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/response/quantity.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

struct MassItem {
    std::string name; ///< material, fabric's fibre or resin, "resin", "inserts"
    double mass = 0;  ///< [kg]
};

struct MassReport {
    double mass = 0;                   ///< [kg]
    double x = 0, y = 0;               ///< balance point [m]
    std::vector<MassItem> by_material; ///< largest first
};

using Masses = std::map<std::string, double>; ///< by material [kg], of a place [kg/m2]

/// Resin that wets a ply of fibres [kg/m2].
double resin_of(const Board& board, const Fabric& fabric, const FabricPly& ply);

/// Adds what so much of a layer weighs, fibres and resin apart. \param area 1 for the mass of a
/// place
void add_layer_mass(const Board& board, const Layer& layer, double area, Masses& masses);

/// Mass, balance point and mass by material; needs no finite-element mesh: integrates across
/// stations and bands. Exact to 1e-4 relative or better.
MassReport board_mass(const Board& board);

/// The mass with the bar that board_mass promises.
Quantity mass_quantity(const MassReport& report);

/// What mass (number 0), balance point x (1) and y (2) owe to the section. Resin that is mass only
/// is an addition to I0 everywhere.
SectionWeights mass_weights(const Board& board);

} // namespace vrid
