#pragma once

#include <algorithm>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace vrid {

class MemoryStock; // solver/system/large_memory

/// How a board is computed, whatever is asked of it. A default leaves the choice to each
/// computation.
struct Settings {
    int degree = 0;      ///< of the elements, 1..6; 0: the default
    double max_size = 0; ///< longest quad side [m]; 0: the default
    std::optional<double> rel_error =
        std::nullopt;              ///< of bench cases: refine until bar / value is below
    bool flat = false;             ///< the flat blank, not the rest shape
    std::vector<double> bend = {}; ///< travels of the bent board [m]
    int threads = 0;               ///< 0: as many as cores
    std::shared_ptr<MemoryStock> memory =
        nullptr; ///< for factors, used again by the next; null: none
    /// Told at the start of every phase ("mesh", "sections", ...), and within long ones, with the
    /// share done, 0..1. May throw to cancel: whatever it throws comes out of the computation.
    std::function<void(const std::string& phase, double share)> progress = nullptr;

    /// Calls `progress`, if there is one.
    void tell(const std::string& phase, double share) const {
        if (progress) {
            progress(phase, share);
        }
    }
    /// `threads`, or as many as cores; at least 1.
    [[nodiscard]] int thread_count() const {
        return threads > 0 ? threads
                           : static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    }
};

} // namespace vrid
