#pragma once

namespace vrid {

/// Makes the dense library ready for `threads` threads of ours, each multiplying for itself: none
/// of its own threads, and a work buffer for each of ours taken now. Where the system has no room
/// for a buffer (OpenBLAS would look for it without end) fewer threads can be had.
/// \return how many, at least 1 \throws std::bad_alloc when there is no room for one
int prepare_dense(int threads);

} // namespace vrid
