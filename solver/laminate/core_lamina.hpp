#pragma once

#include <vector>

#include "solver/laminate/layup.hpp"

namespace vrid {

/// The core's lamina of materials side by side, its thickness left 0. \param shares need not add up
/// to one: a share alone may be changed to see what the lamina owes to it
Lamina<double> core_lamina(const Board& board, const std::vector<CoreShare>& shares, Pace pace);

} // namespace vrid
