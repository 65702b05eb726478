#pragma once

#include "solver/system/elimination.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// What the elimination needs to know of a model: which nodes each quad has, and where it is.
ElementDofs element_dofs(const PlateModel& model);

} // namespace vrid
