#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/settings.hpp"
#include "solver/strength_study.hpp"

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

/// A static case whose laminate gives at a lower load.
struct EarlierFailure {
    std::string bench_case;
    FailurePlace before, after;
};

/// Where a changed board is weaker than it was.
struct Weaker {
    std::vector<ThinnerStation> stations; ///< by more than 5 %
    std::vector<LighterLayer> layers;
    bool judged = false;                  ///< strengths were looked at, of layers that have them
    std::vector<EarlierFailure> failures; ///< at a load lower by more than 5 %
};

/// \param after the same board with other values: layers and stations correspond
Weaker weaker_places(const Board& before, const Board& after);

/// Adds the static cases that give earlier, at degree 2: bars are wider than those of `vrid
/// strength`, as is enough for a warning. Only cases that a first look finds lower are searched.
/// Nothing where no layer has strengths. \throws SolveError
void add_earlier_failures(const Board& before, const Board& after, const Settings& settings,
                          Weaker& weaker);

/// Lines for a terminal, after an empty one; nothing if nothing got weaker.
std::string weaker_text(const Weaker& weaker);

} // namespace vrid
