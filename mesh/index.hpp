#pragma once

#include <cstddef>

namespace vrid {

/// A number of a node, point or side as the containers of the standard library count.
inline std::size_t index(int i) {
    return static_cast<std::size_t>(i);
}

} // namespace vrid
