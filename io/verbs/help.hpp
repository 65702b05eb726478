#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/verbs/verb.hpp"

namespace vrid {

/// Something to read about that is no verb.
struct Topic {
    std::string name;      ///< "board"
    std::string summary;   ///< one line
    std::string (*text)(); ///< 80 columns where it is no wide table
};

/// The table of topics, in the order of the help text.
const std::vector<Topic>& topics();

/// Exit statuses as people read them: number, meaning.
std::vector<std::pair<std::string, std::string>> exit_meanings();

/// `vrid --help`: all verbs, exit statuses, an example.
std::string program_help();

/// `vrid VERB --help`: usage, what it does, every option, examples. 80 columns.
std::string verb_help(const Verb& verb);

/// "usage: vrid solve BOARD [options]\n"
std::string usage(const Verb& verb);

/// vrid(1) as a page for `man`: what --help says of the program and of every verb.
std::string manual_page();

/// A topic as a page for `man`, section 5: vrid-board(5).
std::string topic_page(const Topic& topic);

/// A script for bash that completes verbs, their options, what is known of values, and file names.
std::string bash_completion();

} // namespace vrid
