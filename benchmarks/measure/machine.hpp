#pragma once

#include <string>

namespace vrid::measure {

/// What figures depend on: cores, load, the dense kernel in force and its speed. One thread is
/// given to the dense library from here on.
std::string machine_text();

/// So that no timed part pays for the first touch of memory.
void touch_memory(double bytes);

} // namespace vrid::measure
