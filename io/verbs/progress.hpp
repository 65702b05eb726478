#pragma once

#include <functional>
#include <string>

#include "io/verbs/verb.hpp"

namespace vrid {

/// Seconds since some moment.
using Clock = std::function<double()>;
double steady_seconds();

/// "40 s", "12 min", "3 h 20 min"
std::string duration_text(double seconds);

/// A callback for Settings::progress: draws a bar with the time left on a terminal, elsewhere a
/// line every ten seconds, and throws Cancelled once the user has asked to stop. The time left
/// follows from the pace since the share was last lower than before. Refers to `console`. A share
/// of 1 wipes the bar.
std::function<void(const std::string& phase, double share)>
progress_of(Console& console, const Clock& clock = steady_seconds);

/// Wipes what the bar has left on the line.
void wipe_progress(Console& console);

/// \throws Cancelled once the user has asked to stop
void stop_if_cancelled(const Console& console);

} // namespace vrid
