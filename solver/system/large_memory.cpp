#include "solver/system/large_memory.hpp"

#include <cstdlib>
#include <map>
#include <mutex>
#include <new>
#include <utility>

#include <malloc.h>
#include <sys/mman.h>

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

struct MemoryStock::Shelf {
    std::mutex guard;
    std::multimap<std::size_t, std::shared_ptr<double>> idle; // by size in numbers
};

MemoryStock::MemoryStock() : shelf_(std::make_shared<Shelf>()) {}

std::shared_ptr<double> MemoryStock::lend(std::size_t size) {
    constexpr std::size_t small = 1 << 15; // the heap does as well
    if (size < small) {
        return large_memory(size);
    }
    std::size_t room = size;
    std::shared_ptr<double> block;
    {
        const std::lock_guard<std::mutex> lock(shelf_->guard);
        auto best = shelf_->idle.lower_bound(size);
        if (best != shelf_->idle.end()) {
            room = best->first;
            block = std::move(best->second);
            shelf_->idle.erase(best);
        } else if (!shelf_->idle.empty()) { // a larger one takes the place of the largest
            shelf_->idle.erase(std::prev(shelf_->idle.end()));
        }
    }
    if (!block) {
        block = large_memory(room);
    }
    double* first = block.get();
    return {first, [shelf = shelf_, room, block = std::move(block)](double*) mutable {
                const std::lock_guard<std::mutex> lock(shelf->guard);
                shelf->idle.emplace(room, std::move(block));
            }};
}

void MemoryStock::clear() {
    const std::lock_guard<std::mutex> lock(shelf_->guard);
    shelf_->idle.clear();
}

std::size_t MemoryStock::idle_bytes() const {
    const std::lock_guard<std::mutex> lock(shelf_->guard);
    std::size_t numbers = 0;
    for (const auto& [size, block] : shelf_->idle) {
        numbers += size;
    }
    return numbers * sizeof(double);
}

void keep_freed_memory() {
#ifdef __GLIBC__
    constexpr int megabyte = 1 << 20;
    mallopt(M_MMAP_THRESHOLD, 32 * megabyte); // the largest that is allowed
    mallopt(M_TRIM_THRESHOLD, 256 * megabyte);
    mallopt(M_TOP_PAD, 4 * megabyte);
#endif
}

} // namespace vrid
