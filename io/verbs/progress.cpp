#include "io/verbs/progress.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "io/write/descriptor_stream.hpp"
#include "io/write/number.hpp"

namespace vrid {
namespace {

constexpr int bar_width = 30;
constexpr const char* wipe = "\r\x1b[K"; // to the line's start, clear to its end

} // namespace

void stop_if_cancelled(const Console& console) {
    if (console.cancelled && console.cancelled()) {
        throw Cancelled();
    }
}

void wipe_progress(Console& console) {
    if (console.terminal != nullptr) {
        *console.terminal << wipe << std::flush;
    }
}

std::function<void(const std::string& phase, double share)> progress_of(Console& console) {
    return [&console](const std::string& phase, double share) {
        stop_if_cancelled(console);
        if (console.terminal == nullptr) {
            return;
        }
        if (share >= 1) {
            wipe_progress(console);
            return;
        }
        const double part = std::clamp(share, 0.0, 1.0);
        const int full = static_cast<int>(std::lround(part * bar_width));
        *console.terminal << wipe << "[" << std::string(static_cast<std::size_t>(full), '=')
                          << std::string(static_cast<std::size_t>(bar_width - full), ' ') << "] "
                          << fixed(100 * part, 0) << " % " << without_controls(phase) << std::flush;
    };
}

} // namespace vrid
