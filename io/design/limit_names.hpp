#pragma once

#include <vector>

#include "io/read/read_board.hpp"

namespace vrid {

/// A warning for each name under the file's [limits] that no verb can have a number for, with the
/// nearest that one has: nothing would ever be held against it. Names of edge conditions ("edge 45
/// deg 800 N ...") are left to the batch that computes them.
std::vector<Problem> unknown_limits(const NamedBoard& read);

} // namespace vrid
