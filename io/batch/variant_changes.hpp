#pragma once

#include <vector>

#include "io/batch/suite.hpp"
#include "io/report/report.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// What a variant sets, with what the board as drawn has there.
std::vector<VariantChange> value_changes(const Board& drawn, const Variant& variant);

/// Layers whose laminate, thickness or place differ, and those that only one board has.
std::vector<VariantChange> layup_changes(const std::vector<LaidLayer>& drawn,
                                         const std::vector<LaidLayer>& variant);

} // namespace vrid
