#pragma once

#include <array>
#include <cstddef>
#include <memory>

#include "solver/system/large_memory.hpp"

namespace vrid {

/// Memory that comes and goes in the order of the elimination. Fronts of even and of odd depth have
/// a stack each: when a front is joined, its children's matrices are the top of the other stack.
class DepthStacks {
  public:
    /// Empties both stacks and makes room.
    void reserve(std::size_t even, std::size_t odd, MemoryStock& stock) {
        const std::array<std::size_t, 2> size = {even, odd};
        for (int i = 0; i < 2; ++i) {
            if (size[i] > capacity_[i]) {
                memory_[i] = stock.lend(size[i]);
                capacity_[i] = size[i];
            }
            top_[i] = 0;
        }
    }
    double* push(int depth, std::size_t size) {
        double* at = memory_[depth % 2].get() + top_[depth % 2];
        top_[depth % 2] += size;
        return at;
    }
    void pop(int depth, std::size_t size) { top_[depth % 2] -= size; }

  private:
    std::array<std::shared_ptr<double>, 2> memory_;
    std::array<std::size_t, 2> capacity_ = {0, 0};
    std::array<std::size_t, 2> top_ = {0, 0};
};

} // namespace vrid
