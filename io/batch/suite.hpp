#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// Changes that each board of a suite is also solved with.
struct Variant {
    std::string name; ///< empty: the board as drawn
    std::vector<Change> changes;
};

/// What to hold a run against.
struct DriftSpec {
    std::string baseline; ///< folder of an earlier run
    double percent = 0;   ///< changes below this are no drift
};

/// Many boards, cases and variants: the content of a suite file.
struct Suite {
    std::string file, name;
    std::vector<std::string> boards; ///< board files, sorted, each once
    std::vector<std::string> cases;  ///< empty: all that a board allows
    std::vector<double> bend;        ///< travels of the bent board [m]; empty: not bent
    std::vector<EdgeCondition> edge; ///< every angle with every hardness and force; empty: no map
    bool strength = false;           ///< also the load at which each static case first gives
    std::vector<Variant> variants;   ///< the board as drawn is the first
    std::map<std::string, Limit> limits; ///< by number, bench units; over those of the boards
    std::optional<DriftSpec> drift;
    std::vector<Problem> warnings{}; ///< what is accepted but hardly meant
};

/// Reads a suite file (format 1); finds its boards. Paths are relative to the file.
/// \throws InputError with all problems of the file, each with file:line:column
Suite read_suite(const std::string& path);

/// Files whose path fits the pattern, sorted: * any letters, ? one letter, ** any folders.
/// \param no_files receives what fits, is called *.toml and is no file: a folder, a pipe
std::vector<std::string> matching_files(const std::string& pattern, const std::string& folder,
                                        std::vector<std::string>* no_files = nullptr);

} // namespace vrid
