#pragma once

namespace vrid {

/// From now on the dense library multiplies on the thread that calls it.
void dense_on_one_thread();

/// Ends the threads that the dense library begins when it is loaded: each turns idle for some 30
/// ms, which is as much as a short run computes. For a program's main alone: another library in the
/// process may want them.
void end_dense_threads();

/// Makes the dense library ready for `threads` threads of ours, each multiplying for itself: none
/// of its own threads, and a work buffer for each of ours taken now. Where the system has no room
/// for a buffer (OpenBLAS would look for it without end) fewer threads can be had.
/// \return how many, at least 1 \throws std::bad_alloc when there is no room for one
int prepare_dense(int threads);

} // namespace vrid
