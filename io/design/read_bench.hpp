#pragma once

#include <string>

#include "io/read/read_board.hpp"
#include "solver/design/bench.hpp"

namespace vrid {

/// Reads a bench file for a board: what was measured on a built one ([[reading]], in bench units)
/// and which values to fit ([[free]]), with their deviations before the fit from [tolerance] of the
/// board or the library. \throws InputError with all problems of the file, each with
/// file:line:column: unknown numbers and values with the nearest, readings without a deviation,
/// fewer readings than free values of which one has no deviation
Bench read_bench(const std::string& path, const Board& board, const MaterialLibrary& library);
Bench read_bench_text(const BoardText& source, const Board& board, const MaterialLibrary& library);

} // namespace vrid
