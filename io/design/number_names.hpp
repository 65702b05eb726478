#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/design/number_id.hpp"

namespace vrid {

/// The names that this board has, stations apart: of any of them there are as many as one likes.
std::vector<std::string> number_names(const Board& board);

/// A number of this board, or what is wrong with its name.
struct NumberFound {
    std::optional<NumberId> request;
    std::string wrong; ///< "found ...; accepted: ..." with the nearest name
};
NumberFound find_number(const std::string& name, const Board& board);

/// \throws InputError at `place`, if the board has no such number
NumberId parse_number(const std::string& name, const Board& board,
                      const std::string& place = "number");

} // namespace vrid
