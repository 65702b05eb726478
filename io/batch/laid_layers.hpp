#pragma once

#include <vector>

#include "io/report/report.hpp"
#include "io/write/json_parts.hpp"

namespace vrid {

/// "layup" of drawing.json, as io/write/layup_json writes it; empty if an earlier version wrote the
/// file. \throws Json::exception if it is damaged
std::vector<LaidLayer> laid_layers(const Json& drawing);

} // namespace vrid
