#pragma once

#include <string>
#include <vector>

#include "solver/cases/cases.hpp"
#include "solver/response/result.hpp"
#include "solver/settings.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

/// The bent numbers of some bench cases.
struct Bending {
    std::vector<BentCase> cases; ///< by case, then by travel
    std::vector<std::string> warnings;
};

/// What may be asked for [m]; no board gets there.
constexpr double most_travel = 1;

/// Whether a case of the table has bent numbers.
bool bends(const std::string& bench_case);

/// A model and its elimination_order.
struct BendModel {
    const PlateModel& model;
    const EliminationTree& tree;
};

/// Bends the board to every travel of the settings: centre pushed down, tips lifted up, the force
/// vertical, by Newton's method with the travel prescribed; then the tangent twist stiffness of the
/// twist cases, the bending force staying as a dead load on its line while the supports are those
/// of the twist case. Of other cases nothing. The whole way is gone at both degrees; their
/// difference tells the bars (no_bar at degree 1), of the flattening that of each of its parts.
/// \param weights also what the numbers owe to the
/// section
/// \throws SolveError with the travel reached when there is no way on: the board buckles (a pivot
/// of the tangent stiffness is not positive), or steps of under half a millimetre do not converge
Bending bend_board(const Board& board, const BendModel& coarse, const BendModel& fine,
                   const std::vector<const BenchCase*>& cases, const Settings& settings,
                   bool weights = false);

} // namespace vrid
