#pragma once

#include <string>
#include <vector>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/solved_board.hpp"
#include "solver/design/session.hpp"
#include "solver/edge.hpp"
#include "solver/study.hpp"

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

/// --flat, of every verb that computes on the rest shape.
Option flat_option();
/// --bend, whose travels study_options puts into Settings::bend.
Option bend_option();
/// The options of verbs that solve: --strict --case --rel-error --degree --size-mm --threads.
std::vector<Option> study_option_table();

/// Understands them, and tells progress on the console. \throws InputError with all problems at
/// once
StudyOptions study_options(const Arguments& arguments, Console& console);

/// Reads the board file (board_argument) and what is known of it without a mesh; `study` stays
/// empty.
SolvedBoard read_for_study(const std::string& path, const MaterialLibrary& library,
                           const Arguments& arguments, Console& console);

/// Runs the cases into `solved`, with progress and warnings on the console.
void solve_into(SolvedBoard& solved, const StudyOptions& options, Console& console);

/// Tells warnings about a board file.
void tell_warnings(const std::string& file, const std::vector<std::string>& warnings,
                   Console& console);

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

/// The options that name conditions: --angle --force --hardness --share --side --law.
std::vector<Option> edge_condition_table();

/// All combinations, neighbours in the list being neighbours in the map. \throws InputError with
/// all problems at once
std::vector<EdgeCondition> edge_conditions(const Arguments& arguments);

} // namespace vrid
