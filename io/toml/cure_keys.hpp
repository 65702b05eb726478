#pragma once

#include <vector>

#include "io/toml/board_keys.hpp"

namespace vrid {

/// The keys of [cure], and those of a material that only a cure asks for.
std::vector<BoardKey> cure_keys();

} // namespace vrid
