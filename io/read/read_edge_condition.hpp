#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// Kinds of snow by name, in the order of their hardness: soft, packed, hard, ice.
std::vector<std::string> snow_names();

/// Hardness of a kind of snow by the law of volume [N/mm3]; nothing for another name.
std::optional<double> snow_hardness(const std::string& name);

/// 45 degrees, 800 N, packed snow, half the load on each foot, left edge, law of volume.
EdgeCondition default_edge_condition(SnowLaw law = SnowLaw::volume);

/// Reads [edge] of a goal file; what it does not say is as in default_edge_condition.
EdgeCondition read_edge_condition(TableReader table);

} // namespace vrid
