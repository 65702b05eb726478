#pragma once

#include <string>
#include <vector>

namespace vrid {

/// Something to read about that is no verb.
struct Topic {
    std::string name;      ///< "board"
    std::string summary;   ///< one line
    std::string (*text)(); ///< 80 columns where it is no wide table
};

/// The table of topics, in the order of the help text.
const std::vector<Topic>& topics();

} // namespace vrid
