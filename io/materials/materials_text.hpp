#pragma once

#include <optional>
#include <string>

#include "io/materials/material_library.hpp"

namespace vrid {

/// What `vrid materials` prints: without a name a table of all materials, fabrics and default
/// tolerances, with the name of one its values with unit and source. \throws InputError for an
/// unknown name, with the nearest.
std::string materials_text(const MaterialLibrary& library,
                           const std::optional<std::string>& name = std::nullopt);

/// The same as one JSON document: {"format": 1, "materials": [{"name", "note", "values": {KEY:
/// {"value", "unit", "source"}}}], "fabrics": [{"name", "note", "resin", "fibre_volume_fraction",
/// "plies": [...]}], "tolerances": [{"path", "value", "unit", "source"}]}, values in the unit of
/// the board file's key; tolerances (standard deviations where a board file says nothing) only in
/// the document of all.
std::string materials_json(const MaterialLibrary& library,
                           const std::optional<std::string>& name = std::nullopt);

} // namespace vrid
