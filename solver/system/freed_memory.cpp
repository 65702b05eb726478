#include "solver/system/freed_memory.hpp"

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace vrid {

void keep_freed_memory() {
#ifdef __GLIBC__
    constexpr int megabyte = 1 << 20;
    mallopt(M_MMAP_THRESHOLD, 32 * megabyte); // the largest that is allowed
    mallopt(M_TRIM_THRESHOLD, 256 * megabyte);
    mallopt(M_TOP_PAD, 4 * megabyte);
#endif
}

} // namespace vrid
