#pragma once

#include "io/toml/table_reader.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// 45 degrees, 800 N, packed snow, half the load on each foot, left edge, law of volume.
EdgeCondition default_edge_condition(SnowLaw law = SnowLaw::volume);

/// Reads [edge] of a goal file; what it does not say is as in default_edge_condition.
EdgeCondition read_edge_condition(TableReader table);

} // namespace vrid
