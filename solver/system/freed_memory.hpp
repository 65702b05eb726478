#pragma once

namespace vrid {

/// Large matrices come and go all the time: what is freed is kept for the next one. Given back to
/// the system, it would have to be fetched and cleared page by page again. For the whole process;
/// does nothing where the C library has no such setting.
void keep_freed_memory();

} // namespace vrid
