#pragma once

#include <string>

#include "mesh/board/error.hpp"

namespace vrid {

/// Of a computation with so many unknowns.
inline SolveError out_of_memory(int unknowns) {
    return {"memory", "out of memory at " + std::to_string(unknowns) + " unknowns"};
}

} // namespace vrid
