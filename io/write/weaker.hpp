#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// A core station that got thinner.
struct ThinnerStation {
    double x = 0;                 ///< [m]
    double before = 0, after = 0; ///< core thickness there [m]
};

/// A layer that lost weight.
struct LighterLayer {
    std::string name;
    double before = 0, after = 0; ///< without resin [kg/m2]
};

/// Where a changed board is weaker than it was: where it breaks, since no strength is looked at.
struct Weaker {
    std::vector<ThinnerStation> stations; ///< by more than 5 %
    std::vector<LighterLayer> layers;
};

/// \param after the same board with other values: layers and stations correspond
Weaker weaker_places(const Board& before, const Board& after);

/// Lines for a terminal, after an empty one; nothing if nothing got weaker.
std::string weaker_text(const Weaker& weaker);

} // namespace vrid
