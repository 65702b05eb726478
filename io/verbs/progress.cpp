#include "io/verbs/verb.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>
#include <ostream>

#include "io/write/descriptor_stream.hpp"
#include "io/write/number.hpp"

namespace vrid {

namespace {

constexpr int bar_width = 30;
constexpr const char* wipe = "\r\x1b[K"; // to the line's start, clear to its end
constexpr double line_every = 10;        // seconds, where no bar can be drawn
constexpr double first_guess = 2;        // seconds after which a pace says something

std::string percent(double share) {
    return fixed(100 * std::clamp(share, 0.0, 1.0), 0) + " %";
}

// How fast a share grows, since its last fall, when another piece of work began.
struct Headway {
    bool begun = false;
    double start = 0, first = 0, last = 0;
    double told = 0; // when the last line was written

    // ", 40 s left"
    std::string left(double now, double share) {
        if (!begun || share < last) {
            begun = true;
            start = now;
            first = share;
        }
        last = share;
        const double spent = now - start;
        return spent < first_guess || share <= first
                   ? ""
                   : ", " + duration_text(spent * (1 - share) / (share - first)) + " left";
    }
};

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

double steady_seconds() {
    const std::chrono::duration<double> now = std::chrono::steady_clock::now().time_since_epoch();
    return now.count();
}

std::string duration_text(double seconds) {
    constexpr double minute = 60;
    constexpr int minutes_an_hour = 60;
    if (seconds < 1.5 * minute) {
        return fixed(std::max(1.0, std::ceil(seconds)), 0) + " s";
    }
    const int minutes = static_cast<int>(std::min(1e8, std::round(seconds / minute)));
    const std::string rest = std::to_string(minutes % minutes_an_hour) + " min";
    return minutes < minutes_an_hour ? rest
                                     : std::to_string(minutes / minutes_an_hour) + " h " + rest;
}

std::function<void(const std::string& phase, double share)> progress_of(Console& console,
                                                                        const Clock& clock) {
    const auto pace = std::make_shared<Headway>(); // copies of the callback tell of one work
    pace->told = clock();
    return [&console, clock, pace](const std::string& phase, double share) {
        stop_if_cancelled(console);
        const double now = clock();
        const std::string left = pace->left(now, std::clamp(share, 0.0, 1.0));
        if (console.terminal == nullptr) {
            if (now - pace->told >= line_every && share < 1) {
                pace->told = now;
                console.err << percent(share) << " " << without_controls(phase) << left
                            << std::endl;
            }
            return;
        }
        if (share >= 1) {
            wipe_progress(console);
            return;
        }
        const int full = static_cast<int>(std::lround(std::clamp(share, 0.0, 1.0) * bar_width));
        *console.terminal << wipe << "[" << std::string(static_cast<std::size_t>(full), '=')
                          << std::string(static_cast<std::size_t>(bar_width - full), ' ') << "] "
                          << percent(share) << " " << without_controls(phase) << left << std::flush;
    };
}

} // namespace vrid
