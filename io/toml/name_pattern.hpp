#pragma once

#include <string>
#include <string_view>

namespace vrid {

/// Whether all of a name fits a pattern, by POSIX fnmatch(3). \param wild which of its letters mean
/// others: '*' any number of any letters, '?' one; all else, brackets too, means itself
bool fits_pattern(const std::string& name, std::string_view pattern, std::string_view wild);

} // namespace vrid
