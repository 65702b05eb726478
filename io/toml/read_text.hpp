#pragma once

#include <string>

#include "io/toml/ascii_text.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// Input files are drawings and lists of numbers; a larger one is some other file.
inline constexpr std::size_t largest_input_file = std::size_t{1} << 20; // [bytes]

/// The whole text of a regular file. \throws InputError when it is missing, a directory or device,
/// unreadable, or larger than `largest`. `place` is named in the error; empty: the path.
std::string read_text(const std::string& path, const std::string& place = "",
                      std::size_t largest = largest_input_file);

/// A text in ASCII spelling, fit for the TOML parser. \throws InputError with file:line:column
/// (columns count characters) for what the parser must not see: control characters, bytes that are
/// not UTF-8, letters beyond ASCII outside strings and comments, tables or keys nested deeper than
/// 16, more than largest_input_file.
AsciiText fit_for_toml(const std::string& text, const std::string& file);

} // namespace vrid
