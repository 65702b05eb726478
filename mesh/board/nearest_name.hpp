#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace vrid {

/// The valid name nearest to a misspelt one by insertions, deletions, changes and swaps of
/// neighbours, case ignored; empty when none is near (more than a third of the letters wrong).
std::string nearest_name(std::string_view name, const std::vector<std::string>& valid);

/// "; did you mean 'x'?" with the nearest valid name, or nothing: to append to a message.
std::string did_you_mean(std::string_view name, const std::vector<std::string>& valid);

} // namespace vrid
