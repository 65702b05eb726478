#pragma once

#include <string>

#include "io/verbs/topics.hpp"

namespace vrid {

/// vrid(1) as a page for `man`: what --help says of the program and of every verb.
std::string manual_page();

/// A topic as a page for `man`, section 5: vrid-board(5).
std::string topic_page(const Topic& topic);

/// A script for bash that completes verbs, their options, what is known of values, and file names.
std::string bash_completion();

} // namespace vrid
