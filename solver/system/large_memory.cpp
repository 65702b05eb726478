#include "solver/system/large_memory.hpp"

#include <cstdlib>
#include <new>

#ifdef __linux__
#include <sys/mman.h>
#endif

namespace vrid {

namespace {

#ifdef __linux__
constexpr std::size_t page = std::size_t{1} << 21; // a large page of the usual processors

std::shared_ptr<double> large_pages(std::size_t bytes) {
    bytes = (bytes + page - 1) / page * page;
    const std::size_t mapped = bytes + page; // room to start on a page
    void* memory =
        mmap(nullptr, mapped, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED) {
        throw std::bad_alloc();
    }
    const std::shared_ptr<char> owner(static_cast<char*>(memory),
                                      [mapped](char* p) { munmap(p, mapped); });
    void* start = memory;
    std::size_t space = mapped;
    std::align(page, bytes, start, space);
    madvise(start, bytes, MADV_HUGEPAGE); // a wish: without it all works, slower
    return {owner, static_cast<double*>(start)};
}
#endif

} // namespace

std::shared_ptr<double> large_memory(std::size_t size) {
#ifdef __linux__
    if (size * sizeof(double) >= page) {
        return large_pages(size * sizeof(double));
    }
#endif
    void* memory = std::malloc((size + 1) * sizeof(double)); // never null for nothing asked
    if (memory == nullptr) {
        throw std::bad_alloc();
    }
    return {static_cast<double*>(memory), [](double* p) { std::free(p); }};
}

} // namespace vrid
