#pragma once

#include <string>

#include "io/read/read_board.hpp"
#include "io/verbs/verb.hpp"

namespace vrid {

/// --strict, of every verb that takes a board.
Option strict_option();
/// --set, of verbs that compute a board and write no board file.
Option set_option();
/// The arguments of a board that --set leaves as its file has it.
Arguments without_set(Arguments arguments);

/// Reads a board file for a verb, with the values of --set. What is accepted but hardly meant goes
/// to console.err, one line each with its place; with --strict it is an error. \throws InputError
/// \param warnings receives what was told, if asked for
NamedBoard board_argument(const BoardText& source, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings = nullptr);
NamedBoard board_argument(const std::string& path, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings = nullptr);

} // namespace vrid
