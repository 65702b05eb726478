#pragma once

#include <string>

namespace vrid {

/// Name and version as results record it: "vrid 1.0.0".
std::string program_name();

} // namespace vrid
