#pragma once

#include <numbers>

namespace vrid::tests {

/// One degree in radians.
inline constexpr double degree = std::numbers::pi / 180;

} // namespace vrid::tests
