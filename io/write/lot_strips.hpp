#pragma once

#include "io/write/json_parts.hpp"
#include "io/write/lot_report.hpp"

namespace vrid {

/// What the strips of the report are drawn from, of at most 1000 boards, evenly chosen: serials,
/// dates, texts; of each number the readings, their moving average (weight 0.2, about the mean
/// found) and its limits; the cumulative sums (k 0.5, h 5) of the score of the value that changed.
Json lot_strips_json(const LotReport& report);

} // namespace vrid
