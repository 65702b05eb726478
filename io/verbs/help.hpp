#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/verbs/verb.hpp"

namespace vrid {

/// Exit statuses as people read them: number, meaning.
std::vector<std::pair<std::string, std::string>> exit_meanings();

/// `vrid --help`: all verbs, exit statuses, an example.
std::string program_help();

/// `vrid VERB --help`: usage, what it does, every option, examples. 80 columns.
std::string verb_help(const Verb& verb);

/// "usage: vrid solve BOARD [options]\n"
std::string usage(const Verb& verb);

} // namespace vrid
