#pragma once

#include <string>
#include <vector>

#include "io/materials/material_library.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/solved_board.hpp"
#include "solver/study.hpp"

namespace vrid {

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

} // namespace vrid
