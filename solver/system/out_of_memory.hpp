#pragma once

#include <string>

#include "mesh/board/error.hpp"

namespace vrid {

/// A computation that the memory of the machine, or what others leave of it, does not hold.
class OutOfMemory : public SolveError {
  public:
    explicit OutOfMemory(const std::string& what) : SolveError("memory", what) {}
};

/// Of a computation with so many unknowns.
inline OutOfMemory out_of_memory(int unknowns) {
    return OutOfMemory("out of memory at " + std::to_string(unknowns) + " unknowns");
}

} // namespace vrid
