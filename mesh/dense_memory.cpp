#include "mesh/dense_memory.hpp"

#include <algorithm>
#include <cstddef>
#include <mutex>
#include <new>
#include <vector>

#ifdef __linux__
#include <sys/mman.h>
#endif

// Of its header, which has its home in solver/system.
extern "C" int openblas_get_num_threads(void);
extern "C" void openblas_set_num_threads(int threads);
// What OpenBLAS itself takes and gives its buffers by, and ends its threads by before a process
// forks; not in its header. Null in a build without.
extern "C" void* blas_memory_alloc(int place) __attribute__((weak));
extern "C" void blas_memory_free(void* buffer) __attribute__((weak));
extern "C" int blas_thread_shutdown_() __attribute__((weak));

namespace vrid {

namespace {

// A buffer is 128 MB of addresses on the usual processors, used as far as needed; and something
// must be left for the work itself.
constexpr std::size_t buffer_and_more = std::size_t{160} << 20;

bool there_is_room() {
#ifdef __linux__
    void* memory = mmap(nullptr, buffer_and_more, PROT_READ | PROT_WRITE,
                        MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
    if (memory == MAP_FAILED) {
        return false;
    }
    munmap(memory, buffer_and_more);
#endif
    return true;
}

} // namespace

void dense_on_one_thread() {
    if (openblas_get_num_threads() != 1) { // to set it begins threads anew
        openblas_set_num_threads(1);
    }
}

void end_dense_threads() {
    dense_on_one_thread();
    if (blas_thread_shutdown_ != nullptr) {
        blas_thread_shutdown_();
    }
}

int prepare_dense(int threads) {
    // Of the whole process, as the library's own table of buffers is: it never gives one back.
    static std::mutex guard;
    static int ready = 0;
    const std::lock_guard<std::mutex> lock(guard);
    dense_on_one_thread();
    if (blas_memory_alloc == nullptr || blas_memory_free == nullptr) {
        return threads;
    }
    std::vector<void*> held;
    if (ready < threads) {
        for (int i = 0; i < threads && (i < ready || there_is_room()); ++i) {
            held.push_back(blas_memory_alloc(0));
        }
        ready = std::max(ready, static_cast<int>(held.size()));
    }
    for (void* buffer : held) {
        blas_memory_free(buffer);
    }
    if (ready == 0) {
        throw std::bad_alloc();
    }
    return std::min(threads, ready);
}

} // namespace vrid
