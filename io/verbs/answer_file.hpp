#pragma once

#include <string>

#include "io/verbs/verb.hpp"

namespace vrid {

/// The board file that an option names for an answer: no folder, and none of the inputs. Empty
/// without the option. \throws InputError
std::string answer_file(const Arguments& arguments, const std::string& option);

} // namespace vrid
