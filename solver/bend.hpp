#pragma once

#include <string>
#include <vector>

#include "solver/bend_pass.hpp"

namespace vrid {

/// The bent numbers of some bench cases.
struct Bending {
    std::vector<BentCase> cases;  ///< by case, then by travel
    std::vector<BentMiss> missed; ///< at either degree
    std::vector<std::string> warnings;
};

/// What may be asked for [m]; no board gets there.
constexpr double most_travel = 1;

/// Bars from the difference of two degrees (no_bar at degree 1), of the flattening from that of
/// each of its parts. What one of the passes missed is missed.
Bending with_bars(BendPass fine, const BendPass& coarse);

/// bend_pass at both degrees, the higher from where the lower stood, with_bars.
/// \param weighed names of numbers to tell what they owe to the section
Bending bend_board(const Board& board, const BendModel& coarse, const BendModel& fine,
                   const std::vector<const BenchCase*>& cases, const Settings& settings,
                   const std::vector<std::string>& weighed = {});

/// \throws SolveError with each reason, if anything was missed
void throw_if_missed(const std::vector<BentMiss>& missed);

} // namespace vrid
