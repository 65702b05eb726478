#pragma once

#include <string>
#include <vector>

#include "io/write/json_parts.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// board_entry (io/write/json_parts), and of a board read from a file "file" (its name without
/// folders) and "file_date" (the day of its last change, "2026-11-28", UTC) if it is still there.
Json board_file_entry(const Board& board, const std::vector<std::string>& set);

/// "board.toml, last changed on 2026-11-28" of such an entry, as far as it tells.
std::string board_file_words(const Json& entry);

} // namespace vrid
