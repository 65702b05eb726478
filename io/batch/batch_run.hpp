#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "io/batch/job.hpp"

namespace vrid {

/// Memory that one job takes at its height, by the unknowns of its finer solve. Measured on one
/// board with the program itself: 26,000 unknowns 0.25 GB, 154,000 (degree 3) 1.1 GB, 420,000
/// (degree 6) 3.7 GB, 556,000 (degree 5) 4.6 GB.
inline constexpr double bytes_per_unknown = 9000;
inline constexpr double bytes_per_job = 40e6; // whatever its size
double job_bytes(int unknowns);

struct RunOptions {
    StudyOptions study;              ///< cases, degree, size; one thread a job
    std::vector<EdgeCondition> edge; ///< also these for every board with feet
    int workers = 0;                 ///< jobs at once; 0: one a core
    double memory = 0;               ///< for all jobs at once [bytes]; 0: what is free now, or
                                     ///< less where the system sets a limit
    int shard = 1, shards = 1;
};

struct RunProgress {
    std::size_t done = 0, all = 0;
    std::string board; ///< finished last
};

struct RunCounts {
    std::size_t kept = 0;   ///< finished by an earlier run
    std::size_t solved = 0; ///< now
    std::size_t failed = 0;
    std::vector<std::string> damaged; ///< folders whose files were not as written: run again
};

/// Runs the jobs of the shard that are not done in `folder`, each in a process of its own, and
/// records each in its own folder. A job that fails, or whose process crashes, leaves its error
/// there; the rest run. `tell` is called a few times a second and may throw to cancel, which ends
/// running jobs at once. \throws OutputError, at once, when a result cannot be written: what is
/// finished stays
RunCounts run_jobs(const std::vector<Job>& jobs, const std::filesystem::path& folder,
                   const RunOptions& options, const std::function<void(const RunProgress&)>& tell);

} // namespace vrid
