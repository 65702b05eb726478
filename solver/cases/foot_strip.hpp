#pragma once

#include "solver/cases/cases.hpp"

namespace vrid {

/// Lines at the ends of the foot strips: rear, front, each from tail to nose [m].
std::vector<double> foot_lines(const Board& board);
/// Nodes of the full-width strip, foot_length long, centred on a foot's station.
std::vector<int> foot_strip(const Board& board, const PlateModel& model, double foot);
/// Every freedom of the strip held.
void clamp_foot(Loading& loading, const Board& board, const PlateModel& model, double foot);

enum class End { tail, nose };

/// What the cases between a clamped foot and the contact line of the same end have in common: name
/// ("nose" + `suffix`), supports, lines. `load` loads or turns the contact line at the station
/// given.
BenchCase
clamped_foot_case(End end, const std::string& suffix,
                  const std::function<void(Loading&, const PlateModel&, double contact)>& load);

} // namespace vrid
