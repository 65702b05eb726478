#pragma once

#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// What only sections tell of a board that check_board lets pass: a place without any layer, a core
/// that a layer or a bevel goes through. \param places of its file; a board made in C++ has none
std::vector<Problem> section_problems(const Board& board, const KeyPlaces& places = {});

/// Looks at a board that may be made by hand as the reader looks at one of a file.
/// \throws InputError with all that keeps it from being computed, by path and in the units of a
/// board file
void check_made_board(const Board& board);

} // namespace vrid
