#pragma once

#include <cstddef>
#include <memory>

namespace vrid {

/// Room for `size` numbers, not set. Large blocks are fresh from the system in large pages: factors
/// are written once from end to end, and in small pages that costs a quarter of the time.
std::shared_ptr<double> large_memory(std::size_t size);

/// Blocks that come back when their last owner lets go, to be lent again: fresh memory costs the
/// system as much time as eliminating into it. May be used from several threads; blocks may outlive
/// the stock.
class MemoryStock {
  public:
    MemoryStock();
    /// As large_memory.
    std::shared_ptr<double> lend(std::size_t size);
    /// Lets go of all blocks that are not lent.
    void clear();
    /// Of the blocks that are not lent [bytes].
    [[nodiscard]] std::size_t idle_bytes() const;

  private:
    struct Shelf;
    std::shared_ptr<Shelf> shelf_;
};

/// Large matrices come and go all the time: what is freed is kept for the next one. Given back to
/// the system, it would have to be fetched and cleared page by page again. For the whole process;
/// does nothing where the C library has no such setting.
void keep_freed_memory();

} // namespace vrid
