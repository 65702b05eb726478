#pragma once

#include <cstddef>
#include <memory>

namespace vrid {

/// Room for `size` numbers, not set. Large blocks are fresh from the system in large pages: factors
/// are written once from end to end, and in small pages that costs a quarter of the time.
std::shared_ptr<double> large_memory(std::size_t size);

} // namespace vrid
