#pragma once

#include "io/report/report.hpp"
#include "io/write/json_parts.hpp"

namespace vrid {

/// What result.json holds of the board out of the press; nothing without the case `release`.
CooledDrawing cooled_drawing(const Json& result);

} // namespace vrid
