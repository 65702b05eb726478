#pragma once

#include <vector>

#include "solver/system/elimination.hpp"
#include "solver/system/front_assembly.hpp"

namespace vrid {

/// Free dofs in the order of elimination, so that the pivots of a front are consecutive and its
/// boundary is a few runs.
struct EliminationOrder {
    std::vector<int> dof;       ///< of each row
    std::vector<int> first;     ///< per front: row of its first pivot
    std::vector<Run> runs;      ///< of all fronts: from place on the boundary to row
    std::vector<int> first_run; ///< fronts + 1
    int largest = 0;            ///< rows of a front
};

/// \param factor with its fronts done
EliminationOrder order_rows(const Factor& factor);

} // namespace vrid
