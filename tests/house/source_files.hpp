#pragma once

#include <string>
#include <vector>

namespace vrid::tests {

/// Files with these endings (".cpp") under the named folders of the repository, relative to it,
/// sorted.
std::vector<std::string> files_under(const std::vector<std::string>& folders,
                                     const std::vector<std::string>& endings);

/// A file's lines, without their ends.
std::vector<std::string> lines_of(const std::string& file);

} // namespace vrid::tests
