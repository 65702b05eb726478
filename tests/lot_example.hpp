#pragma once

#include <string>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// NH-157 with seven readings of a rig as good as the shop's, by one solve at a coarse mesh.
/// \param sources the folder of vrid's sources
LotModel lot_example(const std::string& sources);

} // namespace vrid
