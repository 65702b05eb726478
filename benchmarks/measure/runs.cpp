#include "benchmarks/measure/runs.hpp"

#include <array>

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace vrid::measure {

namespace {

// Standard output into `out`, the other one nowhere; -1: not started.
pid_t start(const std::vector<std::string>& words, int out) {
    std::vector<char*> all;
    for (const std::string& word : words) {
        all.push_back(const_cast<char*>(word.c_str())); // as C declares it; it is not written to
    }
    all.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    ::posix_spawn_file_actions_init(&actions);
    ::posix_spawn_file_actions_adddup2(&actions, out, STDOUT_FILENO);
    ::posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child = -1;
    if (::posix_spawnp(&child, all.front(), &actions, nullptr, all.data(), environ) != 0) {
        child = -1;
    }
    ::posix_spawn_file_actions_destroy(&actions);
    return child;
}

std::string all_of(int end) {
    std::string text;
    std::array<char, 65536> part{};
    for (ssize_t n = ::read(end, part.data(), part.size()); n > 0;
         n = ::read(end, part.data(), part.size())) {
        text.append(part.data(), static_cast<std::size_t>(n));
    }
    return text;
}

} // namespace

ProgramRun run_program(const std::vector<std::string>& words) {
    ProgramRun run;
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) {
        return run;
    }
    const double begin = wall_seconds();
    const pid_t child = start(words, ends[1]);
    ::close(ends[1]);
    run.out = all_of(ends[0]);
    ::close(ends[0]);
    int status = 0;
    rusage usage{};
    if (child > 0 && ::wait4(child, &status, 0, &usage) == child && WIFEXITED(status)) {
        run.status = WEXITSTATUS(status) == 127 ? -1 : WEXITSTATUS(status);
    }
    run.wall = wall_seconds() - begin;
    const auto seconds = [](const timeval& t) {
        return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
    };
    run.processor = seconds(usage.ru_utime) + seconds(usage.ru_stime);
    return run;
}

} // namespace vrid::measure
