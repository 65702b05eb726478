#pragma once

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

namespace vrid::measure {

inline double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    const std::size_t half = all.size() / 2;
    return all.size() % 2 == 1 ? all[half] : (all[half - 1] + all[half]) / 2;
}

/// Of runs made in turn.
inline std::vector<double> ratios_of(const std::vector<double>& ours,
                                     const std::vector<double>& theirs) {
    std::vector<double> all;
    for (std::size_t i = 0; i < ours.size(); ++i) {
        all.push_back(ours[i] / theirs[i]);
    }
    return all;
}

inline double wall_seconds() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

/// Of this process by a clock (cpu_seconds, wall_seconds).
template <class Clock, class Work> double seconds_of(const Clock& clock, const Work& work) {
    const double start = clock();
    work();
    return clock() - start;
}

/// A run of a program.
struct ProgramRun {
    int status = -1;                ///< of its exit; -1: it could not be started, or crashed
    double wall = 0, processor = 0; ///< [s], processor of itself and of what it waited for
    std::string out;                ///< standard output; what it says on the other is dropped
};

/// \param words the program's path and its arguments
ProgramRun run_program(const std::vector<std::string>& words);

} // namespace vrid::measure
