#pragma once

#include <string>
#include <vector>

#include "io/verbs/verb.hpp"

namespace vrid {

/// Understands the words after the program's name and runs the verb. Returns an ExitStatus.
/// \throws InputError for an unknown verb or option, whatever the verb throws
int run_command_line(const std::vector<std::string>& words, Console& console);

} // namespace vrid
