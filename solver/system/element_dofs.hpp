#pragma once

#include "solver/system/elimination.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

/// What the elimination needs to know of a numbered mesh.
ElementDofs element_dofs(const Numbering& numbering);

} // namespace vrid
