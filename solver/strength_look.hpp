#pragma once

#include <map>
#include <string>

#include "solver/strength_study.hpp"

namespace vrid {

/// Whether any layer of the board has strengths to be judged by.
bool has_strengths(const Board& board);

/// The load at which each case gives first [N, N m], the worse direction, among the places all over
/// the board at the one degree, without the walk to the weakest: too high by some per cent, but by
/// nearly the same for a changed board on the same mesh. For a look whether a search is worth it.
/// \throws as run_study
std::map<std::string, double> strength_look(const Board& board, const StrengthOptions& options);

} // namespace vrid
