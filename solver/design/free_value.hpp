#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/design/design_kinds.hpp"

namespace vrid {

/// Design values that may move, each on its own, inside the same limits.
struct FreeValue {
    std::string value;         ///< as written: a path, "core.thickness_mm", "layer.*.angle_deg"
    std::vector<DesignId> ids; ///< all that it means on this board; at least one
    std::vector<std::string> names;  ///< of the ids, for messages
    double min = 0, max = 0;         ///< SI
    std::optional<double> max_slope; ///< of the core's thickness along the board [m per m]
    std::optional<double> round_to;  ///< the answer is a multiple of this, SI
    std::string place;               ///< file:line:column
    std::vector<DesignId> carry{};   ///< multiplied by new over old of the value
};

} // namespace vrid
