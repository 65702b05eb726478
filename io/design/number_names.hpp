#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/read/read_board.hpp"
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

/// The board file's limits on a number, SI.
std::optional<Limit> limit_of(const Board& board, const NumberId& number);

/// Stations at which the board's limits name the hollow of a cooled board, for
/// StudyOptions::concavity [m]
std::vector<double> limited_hollows(const Board& board);

/// A warning for each name under the file's [limits] that no verb can have a number for, with the
/// nearest that one has: nothing would ever be held against it. Names of edge conditions ("edge 45
/// deg 800 N ...") are left to the batch that computes them.
std::vector<Problem> unknown_limits(const NamedBoard& read);

} // namespace vrid
