#pragma once

#include <string>
#include <vector>

#include "solver/design/design_kinds.hpp"

namespace vrid {

/// Table and key of a kind in a board file, "layer.thickness_mm": its ending tells the unit.
std::string range_of(const DesignKind& kind);

/// The unit in which a file writes the value, "mm"; empty: a pure number.
std::string file_unit_name(const DesignId& id);
/// A value as the file writes it, in SI, and the other way.
double to_si(const DesignId& id, double value);
double from_si(const DesignId& id, double value);

/// A design value as files and people write it: "core.thickness_mm[3]", "layer.base.angle_deg".
std::string path_of(const DesignId& id);

/// The path of every kind of design value, with * for names and without indices:
/// "core.thickness_mm", "layer.*.angle_deg".
std::vector<std::string> kind_patterns();

} // namespace vrid
