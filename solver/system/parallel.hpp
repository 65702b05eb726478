#pragma once

#include <functional>

namespace vrid {

/// Calls work(i) for i = 0..count-1, even shares of neighbours on each of `threads` threads; work
/// must write to places of its own. The first exception is thrown on, once all threads have ended.
/// Where the system gives fewer threads than asked for, this one does the shares that are left;
/// where it has no room for the dense library's buffer of each, there are fewer shares. The only
/// place where threads are started: what is thrown in one never ends the process.
/// \throws std::bad_alloc when there is no room for one buffer
void for_each_in_parallel(int count, int threads, const std::function<void(int)>& work);

} // namespace vrid
