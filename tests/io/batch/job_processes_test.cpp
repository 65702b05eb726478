#include "io/batch/job_processes.hpp"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <new>
#include <stdexcept>
#include <thread>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "solver/system/out_of_memory.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

constexpr JobLimits plenty{2, 1e12, 1e12};

/// What each job ended with.
std::map<std::size_t, std::string>
run_all(std::size_t jobs, const JobLimits& limits,
        const std::function<void(std::size_t job, const AskForRoom& ask)>& work) {
    std::map<std::size_t, std::string> ends;
    JobCalls calls;
    calls.work = work;
    calls.ended = [&](std::size_t job, const std::string& error) {
        CHECK_FALSE(ends.contains(job));
        ends[job] = error;
    };
    calls.watch = [] {};
    run_in_processes(jobs, calls, limits);
    CHECK(ends.size() == jobs);
    return ends;
}

std::size_t lines_in(const std::filesystem::path& path) {
    const std::string text = tests::content(path);
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

void add_line(const std::filesystem::path& path) {
    std::ofstream(path, std::ios::app) << "x\n";
}

} // namespace

TEST_CASE("whatever a job does, a crash too, is that job's end alone") {
    auto ends = run_all(8, plenty, [](std::size_t job, const AskForRoom& ask) {
        ask(1e6);
        switch (job) {
        case 1:
            std::raise(SIGSEGV);
            break;
        case 2:
            throw SolveError("modes", "none");
        case 3:
            throw 7; // NOLINT: as some library might
        case 4:
            std::_Exit(9);
        case 5:
            std::abort();
        default:
            break;
        }
    });
    for (const std::size_t job : {0, 6, 7}) {
        CHECK(ends[job].empty());
    }
    CHECK_THAT(ends[1], Contains("signal 11"));
    CHECK(ends[2] == "modes: none");
    CHECK_THAT(ends[3], Contains("unexpected error"));
    CHECK_THAT(ends[4], Contains("status 9"));
    CHECK_THAT(ends[5], Contains("signal 6"));
}

TEST_CASE("a job that runs out of memory beside others is done again with fewer at a time, and "
          "fails only alone") {
    const tests::TemporaryFolder folder;
    const auto tries = folder.path() / "tries";
    // job 0 has enough memory the second time, job 1 never; the others run until job 0 has tried
    auto ends = run_all(4, {4, 1e12, 1e12}, [&](std::size_t job, const AskForRoom&) {
        if (job == 0) {
            add_line(tries);
            if (lines_in(tries) == 1) {
                throw OutOfMemory("the factor of 7 unknowns needs 9 MB, free are 8 MB");
            }
            return;
        }
        for (int i = 0; i < 2000 && !std::filesystem::exists(tries); ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
        if (job == 1) {
            throw std::bad_alloc();
        }
    });
    CHECK(ends[0].empty());
    CHECK(lines_in(tries) == 2);
    CHECK_THAT(ends[1], Contains("out of memory"));
    CHECK(ends[2].empty());
    CHECK(ends[3].empty());
}

TEST_CASE("a job killed as the system kills when memory runs out is done again, and fails alone") {
    auto ends = run_all(3, plenty, [&](std::size_t job, const AskForRoom&) {
        if (job == 1) {
            std::raise(SIGKILL);
        }
    });
    CHECK(ends[0].empty());
    CHECK_THAT(ends[1], Contains("signal 9") && Contains("memory"));
    CHECK(ends[2].empty());
}

TEST_CASE("jobs wait for room, together take no more than there is, and fail if it never is") {
    const tests::TemporaryFolder folder;
    auto ends = run_all(5, {3, 10, 8}, [&](std::size_t job, const AskForRoom& ask) {
        ask(job == 4 ? 9 : 6); // two at once are 12
        const auto inside = folder.path() / "inside";
        const bool alone = !std::filesystem::exists(inside);
        add_line(inside);
        std::this_thread::sleep_for(std::chrono::milliseconds(30));
        std::filesystem::remove(inside);
        if (!alone) {
            throw std::runtime_error("not alone");
        }
    });
    for (const std::size_t job : {0, 1, 2, 3}) {
        CHECK(ends[job].empty());
    }
    CHECK_THAT(ends[4], Contains("memory: the job needs about"));
}

TEST_CASE("an output error of a job, and what the watcher throws, end all jobs at once") {
    JobCalls calls;
    calls.ended = [](std::size_t, const std::string&) {};
    calls.watch = [] {};
    calls.work = [](std::size_t job, const AskForRoom&) {
        if (job == 1) {
            throw OutputError("/a/file", "no space left");
        }
        std::this_thread::sleep_for(std::chrono::seconds(30));
    };
    const auto start = std::chrono::steady_clock::now();
    CHECK_THROWS_MATCHES(run_in_processes(3, calls, plenty), OutputError,
                         Catch::Matchers::Message("/a/file: no space left"));
    calls.watch = [] { throw std::runtime_error("cancelled"); };
    CHECK_THROWS_WITH(run_in_processes(1, calls, plenty), "cancelled");
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(10));
}
