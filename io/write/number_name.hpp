#pragma once

#include <string>

#include "solver/design/number_id.hpp"

namespace vrid {

/// A number of a board as people write it: "nose-twist", "free-modes mode 1", "EI@-270",
/// "edge.loss_nose".
std::string number_name(const NumberId& number);

} // namespace vrid
