#include "solver/system/free_memory.hpp"

#include <algorithm>
#include <fstream>
#include <limits>
#include <string>

#include <sys/resource.h>

namespace vrid {

namespace {

constexpr double kilobyte = 1024;

/// A line "NAME: N kB" of a file of the system [bytes].
double line_of(const char* path, const std::string& name, double otherwise) {
    std::ifstream file(path);
    for (std::string word; file >> word;) {
        double kilobytes = 0;
        if (word == name && file >> kilobytes) {
            return kilobyte * kilobytes;
        }
    }
    return otherwise;
}

/// A file of one number; `otherwise` where it is absent or says "max".
double number_in(const std::string& path, double otherwise) {
    double number = 0;
    std::ifstream file(path);
    return file >> number ? number : otherwise;
}

/// What the limits on this process's group and on those above it leave.
double left_by_groups() {
    const double none = std::numeric_limits<double>::infinity();
    double least = none;
    std::ifstream file("/proc/self/cgroup");
    for (std::string line; std::getline(file, line);) { // "0::/path" or "4:memory:/path"
        const std::size_t colon = line.find(':');
        const std::size_t second = line.find(':', colon + 1);
        if (second == std::string::npos) {
            continue;
        }
        const std::string which = line.substr(colon + 1, second - colon - 1);
        const bool unified = which.empty();
        if (!unified && which != "memory") {
            continue;
        }
        const std::string root = unified ? "/sys/fs/cgroup" : "/sys/fs/cgroup/memory";
        std::string group = line.substr(second + 1);
        for (;;) {
            const std::string place = root + (group == "/" ? "" : group) + "/";
            const double limit =
                number_in(place + (unified ? "memory.max" : "memory.limit_in_bytes"), none);
            const double used =
                number_in(place + (unified ? "memory.current" : "memory.usage_in_bytes"), 0);
            least = std::min(least, std::max(0.0, limit - used));
            if (group.size() < 2) {
                break;
            }
            group.erase(group.rfind('/'));
        }
    }
    return least;
}

} // namespace

FreeMemory free_memory() {
    FreeMemory free;
    free.machine = std::min(line_of("/proc/meminfo", "MemAvailable:", 1e18), left_by_groups());
    free.process = free.machine;
    rlimit addresses{};
    if (getrlimit(RLIMIT_AS, &addresses) == 0 && addresses.rlim_cur != RLIM_INFINITY) {
        const double used = line_of("/proc/self/status", "VmSize:", 0);
        const double left = static_cast<double>(addresses.rlim_cur) - used;
        free.process = std::min(free.process, std::max(0.0, left));
    }
    return free;
}

} // namespace vrid
