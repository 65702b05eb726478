#include "solver/system/parallel.hpp"

#include <algorithm>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

#include "mesh/dense_memory.hpp"

namespace vrid {

void for_each_in_parallel(int count, int threads, const std::function<void(int)>& work) {
    const int shares = prepare_dense(std::clamp(threads, 1, std::max(1, count)));
    std::vector<std::exception_ptr> failure(static_cast<std::size_t>(shares));
    const auto run_share = [&](int share) {
        try {
            const auto end = static_cast<long>(count) * (share + 1) / shares;
            for (auto i = static_cast<long>(count) * share / shares; i < end; ++i) {
                work(static_cast<int>(i));
            }
        } catch (...) {
            failure[static_cast<std::size_t>(share)] = std::current_exception();
        }
    };
    {
        std::vector<std::jthread> pool;
        pool.reserve(static_cast<std::size_t>(shares));
        int started = 1;
        try {
            for (; started < shares; ++started) {
                pool.emplace_back(run_share, started);
            }
        } catch (const std::system_error&) { // no more threads, or no memory for their stacks
        }
        run_share(0);
        for (; started < shares; ++started) {
            run_share(started);
        }
    }
    for (const std::exception_ptr& error : failure) {
        if (error) {
            std::rethrow_exception(error);
        }
    }
}

} // namespace vrid
