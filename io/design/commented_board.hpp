#pragma once

#include <string>

namespace vrid {

/// A board file with a comment at every key that it has, where it stands first, and with the keys
/// and tables that it lacks as comments, each with a sample value: after the first table of their
/// kind, or at the end. Unit, range and default come from io/toml/board_keys. Values, own comments
/// and order stay.
std::string commented_board(const std::string& text);

} // namespace vrid
