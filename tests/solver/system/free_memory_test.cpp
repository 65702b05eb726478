// Free memory against what the system says by other ways.
#include "solver/system/free_memory.hpp"

#include <fstream>

#include <catch2/catch.hpp>
#include <sys/resource.h>
#include <sys/sysinfo.h>
#include <unistd.h>

using namespace vrid;

TEST_CASE("what is free is some of the memory that there is, in bytes") {
    struct sysinfo system {};
    REQUIRE(::sysinfo(&system) == 0);
    const double all = static_cast<double>(system.totalram) * system.mem_unit;
    const FreeMemory free = free_memory();
    CHECK(free.machine > 1e6);
    CHECK(free.machine < all);
    CHECK(free.process <= free.machine);
}

TEST_CASE("a process with a limit on its addresses has what is left below it") {
    rlimit before{};
    REQUIRE(getrlimit(RLIMIT_AS, &before) == 0);
    if (before.rlim_max != RLIM_INFINITY) {
        return; // somebody else's limit
    }
    const double room = free_memory().machine;
    const auto with_limit = [&](double limit) {
        const rlimit limited{static_cast<rlim_t>(limit), before.rlim_max};
        REQUIRE(setrlimit(RLIMIT_AS, &limited) == 0);
        const double left = free_memory().process;
        REQUIRE(setrlimit(RLIMIT_AS, &before) == 0);
        return left;
    };
    constexpr double terabyte = 1e12;
    const double far = with_limit(1000 * terabyte); // no less than the machine has, and no more
    CHECK(far > 0.5 * room);
    CHECK(far < 2 * room);
    std::ifstream pages("/proc/self/statm"); // another file of the system, in pages
    double taken = 0;
    REQUIRE(pages >> taken);
    taken *= static_cast<double>(::sysconf(_SC_PAGESIZE));
    const double left = with_limit(taken + 4e8);
    CHECK(left == Approx(4e8).margin(4e6));
}
