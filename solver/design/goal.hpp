#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/design/free_value.hpp"
#include "solver/design/number_id.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// What one number is to become.
struct Target {
    enum class Kind {
        percent, ///< `wanted` more than the board has now, as a share: 0.08
        value,   ///< `wanted`, SI
        range,   ///< from `min` to `max`, SI, at least one of them
        same_as  ///< what the board of the file `same_as` has
    };
    NumberId number;
    Kind kind = Kind::value;
    double wanted = 0;
    std::optional<double> min, max;
    std::string same_as; ///< path that can be opened from the working folder
    double within = 0;   ///< allowed on either side: a share of the value met; 0 for a range
    bool within_is_length = false; ///< `within` is in m or rad: for positions (is_position)
    std::string place;             ///< file:line:column
};

/// What to keep small beside the targets.
enum class Least { mass, change };

/// The content of a goal file.
struct Goal {
    std::string file;
    std::vector<Target> targets;
    std::vector<FreeValue> free;
    Least least = Least::change;
    std::optional<EdgeCondition> edge; ///< when a target is an edge number or the file has [edge]
};

} // namespace vrid
