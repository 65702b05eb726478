#pragma once

#include <string>
#include <vector>

namespace vrid {

/// A line that only one of two texts has.
struct ChangedLine {
    std::size_t line = 0; ///< in its own text, from 1
    bool added = false;   ///< stands in the second text; else in the first
    std::string text;     ///< without its end
};

/// What has to go and to come to make the second text of the first: the fewest lines, in the order
/// of the file, what goes before what comes.
std::vector<ChangedLine> changed_lines(const std::string& before, const std::string& after);

} // namespace vrid
