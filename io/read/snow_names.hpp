#pragma once

#include <optional>
#include <string>
#include <vector>

namespace vrid {

/// Kinds of snow by name, in the order of their hardness: soft, packed, hard, ice.
std::vector<std::string> snow_names();

/// Hardness of a kind of snow by the law of volume [N/mm3]; nothing for another name.
std::optional<double> snow_hardness(const std::string& name);

} // namespace vrid
