#pragma once

#include <functional>
#include <string>

#include "io/verbs/verb.hpp"

namespace vrid {

/// A callback for Settings::progress: draws a bar on a terminal (nothing elsewhere) and throws
/// Cancelled once the user has asked to stop. Refers to `console`. A share of 1 wipes the bar.
std::function<void(const std::string& phase, double share)> progress_of(Console& console);

/// Wipes what the bar has left on the line.
void wipe_progress(Console& console);

/// \throws Cancelled once the user has asked to stop
void stop_if_cancelled(const Console& console);

} // namespace vrid
