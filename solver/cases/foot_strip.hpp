#pragma once

#include "solver/system/loading.hpp"

namespace vrid {

/// Lines at the ends of the foot strips: rear, front, each from tail to nose [m].
std::vector<double> foot_lines(const Board& board);
/// Nodes of the full-width strip, foot_length long, centred on a foot's station.
std::vector<int> foot_strip(const Board& board, const PlateModel& model, double foot);
/// Every freedom of the strip held.
void clamp_foot(Loading& loading, const Board& board, const PlateModel& model, double foot);

} // namespace vrid
