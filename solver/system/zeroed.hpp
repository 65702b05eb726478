#pragma once

#include <cstddef>
#include <memory>

namespace vrid {

/// `size` zeros. Large blocks are fresh from the system in large pages: factors are written once
/// from end to end, and page by page that costs a quarter of the time. Throws std::bad_alloc.
std::shared_ptr<double[]> zeroed(std::size_t size);

} // namespace vrid
