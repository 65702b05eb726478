#pragma once

#include <string>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace vrid {

/// A board file as it was read.
struct ReadFrom {
    const BoardText& source;
    const Board& board;
    const MaterialLibrary& library;
};

/// Whether a text like that of the source is the same board in a file `out`, from whose folder
/// outline_csv and include are found. \throws InputError for the option if it is not
/// \param out empty: none is written
void check_answer(const std::string& out, const std::string& option, const ReadFrom& from);

/// The text of a board file that a verb wrote, told apart from the one it came from: "(VERB)" is
/// added to its name, and a comment on the first line says what is known of its strength. A name
/// marked already stays, the comment of an earlier run of the verb is replaced.
/// \throws InputError for a text that is no board file
std::string new_board_text(const std::string& text, const std::string& file,
                           const std::string& verb,
                           const std::string& strength = "strength was not looked at");

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
