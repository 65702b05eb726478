#pragma once

#include <filesystem>

#include "io/report/report.hpp"
#include "io/write/json_parts.hpp"

namespace vrid {

/// What drawing.json holds. \param file names it in errors \throws InputError, or the JSON
/// library's own type, when it is damaged
Drawing drawing_of(const Json& json, const std::filesystem::path& file);

} // namespace vrid
