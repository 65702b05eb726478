#pragma once

#include <cstddef>
#include <functional>
#include <string>

namespace vrid {

/// Asked by a job once it knows how many bytes it takes; returns when there is room for it.
/// \throws SolveError when there never is
using AskForRoom = std::function<void(double bytes)>;

struct JobCalls {
    /// Does a job, in a process of its own: nothing that it changes is seen by the caller, and
    /// whatever ends it, a fault of the program or the system's want of memory, ends that job
    /// alone. What it throws is the job's error; an OutputError ends all jobs.
    std::function<void(std::size_t job, const AskForRoom& ask)> work;
    /// Told in the calling process as a job ends; `error` is empty when it was done.
    std::function<void(std::size_t job, const std::string& error)> ended;
    /// Called in the calling process a few times a second; may throw to end all jobs at once.
    std::function<void()> watch;
};

struct JobLimits {
    int workers = 1;    ///< processes at once
    double memory = 0;  ///< for all jobs at once [bytes]
    double process = 0; ///< for one job [bytes]
};

/// Does jobs 0..jobs-1 in copies of this process, each doing one after another, and ends when all
/// have ended. A job that runs out of memory beside others is done again with one process fewer at
/// a time; alone it fails. The calling process must not run threads of its own.
/// \throws OutputError of a job, SolveError when no process can be started, what `watch` throws;
/// no process is left then
void run_in_processes(std::size_t jobs, const JobCalls& calls, const JobLimits& limits);

} // namespace vrid
