#pragma once

#include <string>

#include "solver/design/design_kinds.hpp"

namespace vrid {

/// Table and key of a kind in a board file, "layer.thickness_mm": its ending tells the unit.
std::string range_of(const DesignKind& kind);

/// A design value as files and people write it: "core.thickness_mm[3]", "layer.base.angle_deg".
std::string path_of(const DesignId& id);

} // namespace vrid
