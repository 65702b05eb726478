#pragma once

#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "io/read/read_board.hpp"

namespace vrid {

/// The text of the board file with the changes made: only the characters of the values that change
/// are others; comments, order and layout stay. An absent key is added to its table, an absent
/// table at the end. A material or fabric of the library comes into the file as a full table with a
/// comment. A scaled fabric changes in place where it is in the file and every layer that uses it
/// is scaled; else the layer gets a fabric of its own. Numbers as file_number writes them; one that
/// is there already stays as it is written. Read again, the text is the board of apply_changes
/// within rounding to twelve digits: this is checked.
/// \throws InputError as read_board_text and apply_changes do, and where a table would have to be
/// added to one in braces
std::string edit_board(const BoardText& source, const MaterialLibrary& library,
                       const std::vector<Change>& changes);

} // namespace vrid
