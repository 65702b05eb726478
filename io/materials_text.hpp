#pragma once

#include <optional>
#include <string>

#include "io/material_library.hpp"

namespace vrid {

/// What `vrid materials` prints: without a name a table of all materials and fabrics, with the name
/// of one its values with unit and source. \throws InputError for an unknown name, with the
/// nearest.
std::string materials_text(const MaterialLibrary& library,
                           const std::optional<std::string>& name = std::nullopt);

/// The same as one JSON document: {"format": 1, "materials": [{"name", "note", "values": {KEY:
/// {"value", "unit", "source"}}}], "fabrics": [{"name", "note", "resin", "fibre_volume_fraction",
/// "plies": [...]}]}, values in the unit of the board file's key.
std::string materials_json(const MaterialLibrary& library,
                           const std::optional<std::string>& name = std::nullopt);

} // namespace vrid
