#pragma once

#include <string>

#include "io/write/drawing.hpp"

namespace vrid {

/// \param file names it in errors \throws InputError, or the JSON library's own type, when it is
/// damaged
Drawing drawing_in(const Json& json, const std::string& file);

/// The file of a board.
std::string drawing_json(const Board& board);

} // namespace vrid
