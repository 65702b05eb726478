#pragma once

namespace vrid {

/// Memory that can still be had [bytes], from the limits of the system.
struct FreeMemory {
    double machine = 0; ///< for all processes of this group: free, or below a limit set on it
    double process = 0; ///< for one process: below its limit of addresses (ulimit -v), or `machine`
};

FreeMemory free_memory();

} // namespace vrid
