#pragma once

#include "io/write/strength_report.hpp"

namespace vrid::tests {

/// Gives at x = 318 mm, y = -40 mm, z = 2.5 mm of the lower glass at 45 deg: at 1250 N, bar 2.4 %,
/// travel 45.7 mm with a bar of 1.1 mm.
FailurePlace failure_place();

/// The same place with an index of 0.8165, bar 0.0123.
IndexPlace index_place();

/// One case "nose-flex" with that place.
BoardStrength strength_example();

/// The left edge at 60 deg, 800 N, 5 N/mm3 with that index.
EdgeStrength edge_strength_example();

} // namespace vrid::tests
