#pragma once

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// NH-157 with seven readings of a rig as good as the shop's, by one solve at a coarse mesh.
LotModel lot_example();

} // namespace vrid
