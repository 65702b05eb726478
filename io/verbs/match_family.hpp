#pragma once

#include <string>
#include <vector>

#include "io/design/read_family.hpp"
#include "io/verbs/match_solves.hpp"
#include "io/verbs/verb.hpp"
#include "solver/design/match.hpp"

namespace vrid {

/// A board matched to a goal, and the text of the answer's file.
struct Matched {
    MatchProblem problem;
    MatchResult result;
    std::vector<NumberPair> others;
    std::string text; ///< of the answer, or of the nearest to one
};

/// The answer's numbers that were solved for, by name.
std::vector<NamedQuantity> known_numbers(const Goal& goal, const Matched& matched);

/// Matches one board. \throws InputError when no free value moves a number
Matched match_board(const MatchInput& input, Console& console);

/// Matches every size of a family, each from the answer of the nearest one that is done, the one
/// nearest the approved board first. Writes a board file for each that is met, and family.json,
/// into the folder input.out. \param goal its file, read again for every size \return the exit
/// status: 1 if a size is not met
int match_family(const MatchInput& input, const Family& family, const std::string& goal, bool json,
                 Console& console);

} // namespace vrid
