#pragma once

#include <functional>
#include <vector>

namespace vrid {

/// Tasks that wait for others: each has at most one that waits for it.
struct WaitingTask {
    int parent = -1; ///< place in the list of the task that waits for this one
    double work = 0; ///< the largest go first
};

/// Calls do_task(place in the list, thread 0..threads-1) for each once all that it waits for are
/// done. Rethrows the first exception, after which no task is begun.
void run_tasks(const std::vector<WaitingTask>& tasks, int threads,
               const std::function<void(int task, int thread)>& do_task);

} // namespace vrid
