#include "solver/system/task_queue.hpp"

#include <algorithm>
#include <atomic>
#include <stdexcept>

#include <catch2/catch.hpp>

TEST_CASE("a task begins only when all that it waits for are done, and all are done") {
    constexpr int tasks = 200;
    std::vector<vrid::WaitingTask> list(tasks);
    for (int t = 1; t < tasks; ++t) {
        list[t] = {(t - 1) / 2, static_cast<double>(t % 7)}; // a binary tree, the root is 0
    }
    for (const int threads : {1, 2, 5}) {
        std::vector<std::atomic<int>> done(tasks);
        std::atomic<int> early = 0;
        vrid::run_tasks(list, threads, [&](int task, int thread) {
            for (const int child : {2 * task + 1, 2 * task + 2}) {
                early += child < tasks && done[child] == 0 ? 1 : 0;
            }
            early += thread < 0 || thread >= threads ? 1 : 0;
            ++done[task];
        });
        CHECK(early == 0);
        CHECK(std::all_of(done.begin(), done.end(), [](const auto& d) { return d == 1; }));
    }
}

TEST_CASE("an exception in a task comes out and ends the others") {
    const std::vector<vrid::WaitingTask> list(50);
    for (const int threads : {1, 3}) {
        CHECK_THROWS_WITH(vrid::run_tasks(list, threads,
                                          [](int task, int) {
                                              if (task == 20) {
                                                  throw std::runtime_error("of task 20");
                                              }
                                          }),
                          "of task 20");
    }
    CHECK_NOTHROW(vrid::run_tasks({}, 2, [](int, int) {}));
}
