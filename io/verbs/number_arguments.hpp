#pragma once

#include <string>
#include <vector>

#include "io/verbs/verb.hpp"
#include "solver/design/session.hpp"

namespace vrid {

/// Words of a repeatable option whose texts are lists: "--of a,b --of c".
std::vector<std::string> words_of(const Arguments& arguments, const std::string& name);

/// The numbers that --of names ("*" stands for any letters); without it the board's plain ones.
/// \param travels all numbers of the board bent to these are among them [m]
/// \throws InputError with all problems
std::vector<NumberId> numbers_asked(const Arguments& arguments, const Board& board,
                                    const std::vector<double>& travels);

/// Per design value whether --to names it; all without --to. \throws InputError
std::vector<bool> values_asked(const Arguments& arguments, const std::vector<DesignValue>& values);

/// Names of the numbers of any board, stations and travels apart.
std::vector<std::string> known_numbers();

/// Options of verbs that compute numbers on one mesh: degree, size and threads.
std::vector<Option> element_option_table();
/// The same with the one edge condition that they allow: --degree --size-mm --threads and
/// those of edge_condition_table.
std::vector<Option> numbers_option_table();
/// The one edge condition. \throws InputError, also for a map of conditions
EdgeCondition one_condition(const Arguments& arguments);

} // namespace vrid
