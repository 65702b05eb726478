#pragma once

#include <vector>

#include "io/verbs/verb.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// The options that name conditions: --angle --force --hardness --share --side --law.
std::vector<Option> edge_condition_table();

/// All combinations, neighbours in the list being neighbours in the map. \throws InputError with
/// all problems at once
std::vector<EdgeCondition> edge_conditions(const Arguments& arguments);

} // namespace vrid
