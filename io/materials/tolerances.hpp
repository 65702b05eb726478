#pragma once

#include <map>
#include <string>
#include <vector>

#include "io/materials/material_library.hpp"
#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/tolerance.hpp"

namespace vrid {

/// Reads [tolerance] of a board file: by path or pattern a number above 0 in the unit of the path,
/// or "3 %". Every entry must fit one of the valid paths.
void read_tolerance(std::map<std::string, ToleranceEntry>& tolerance, TableReader& root,
                    const std::vector<std::string>& valid);

/// Reads [tolerance] of a library file: by pattern a value likewise and its source.
void read_default_tolerance(std::map<std::string, ToleranceEntry>& tolerance, TableReader& root);

/// The deviation of every design value of number_paths that has one, in their order: the board's
/// [tolerance] over the library's, within each the more precise pattern. Left out: a percentage of
/// nothing (a resin of 0 g/m2), a pattern's for the most that can be (what does not creep).
std::vector<Tolerance> tolerances_of(const Board& board, const MaterialLibrary& library);

/// The entry, of the board's [tolerance] or else of the library, that gives a path its deviation:
/// the path itself or a pattern. Empty if none does.
std::string tolerance_entry(const Board& board, const MaterialLibrary& library,
                            const std::string& path);

/// Entries of the board's [tolerance] on values that are no design values (they move the mesh), for
/// a warning: they scatter nothing.
std::vector<std::string> tolerances_without_effect(const Board& board);

} // namespace vrid
