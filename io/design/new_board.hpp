#pragma once

#include <string>

namespace vrid {

/// The text of a board file that a verb wrote, told apart from the one it came from: "(VERB)" is
/// added to its name, and a comment on the first line says that strength was not looked at. What is
/// there already is not added again. \throws InputError for a text that is no board file
std::string new_board_text(const std::string& text, const std::string& file,
                           const std::string& verb);

/// The text with another name of the board. \throws InputError for a text that is no board file
std::string renamed_board_text(const std::string& text, const std::string& file,
                               const std::string& name);

/// A plain board to begin with, as a board file.
std::string start_board();

/// A board file with a comment at every key that it has, where it stands first, and with the keys
/// and tables that it lacks as comments, each with a sample value: after the first table of their
/// kind, or at the end. Unit, range and default come from io/toml/board_keys. Values, own comments
/// and order stay.
std::string commented_board(const std::string& text);

} // namespace vrid
