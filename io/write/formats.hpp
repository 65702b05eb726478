#pragma once

#include <functional>
#include <string>
#include <vector>

#include "io/write/solved_board.hpp"
#include "io/write/staged_files.hpp"

namespace vrid {

struct WriteOptions {
    bool linear = false; ///< four-node cells instead of Lagrange ones
};

/// A way to write a solved board into its folder.
struct Format {
    std::string name;  ///< "stations.csv"
    std::string files; ///< which files, for people
    void (*write)(const SolvedBoard& solved, const WriteOptions& options, StagedFiles& files);
};

/// The table of formats, in the order in which they are written. result.json is not among them: it
/// lists the others and how long they took, so write_result writes it last.
const std::vector<Format>& formats();

/// Writes all formats and result.json into the folder; they appear together or not at all.
/// `between` is called before each format and may throw to cancel. Returns result.json's text.
/// \throws OutputError
std::string write_result(const SolvedBoard& solved, const WriteOptions& options,
                         const std::string& folder, const std::function<void()>& between);

} // namespace vrid
