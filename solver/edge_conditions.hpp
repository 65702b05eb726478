#pragma once

#include <string>
#include <vector>

#include "solver/edge.hpp"

namespace vrid {

/// "left, 45 deg, 800 N, share 0.5": for messages.
std::string description(const EdgeCondition& condition);

/// \throws InputError for a board without feet and for conditions that the model does not cover:
/// tilt outside 10..80 degrees, a load or hardness that is not above 0, a share outside 0..1, bent
/// ones among others or on a flat blank
void check_conditions(const Board& board, const std::vector<EdgeCondition>& conditions, bool flat);

/// Whether the conditions are bent: all or none of one run are.
bool all_bent(const std::vector<EdgeCondition>& conditions);

} // namespace vrid
