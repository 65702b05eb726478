#pragma once

#include <nlohmann/json.hpp>

namespace vrid::tests {

/// A document whose keys may stand in any order: as vrid::Json, but compared by content.
using PlainJson = nlohmann::json;

} // namespace vrid::tests
