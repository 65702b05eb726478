#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/response/result.hpp"

namespace vrid {

struct StudyOptions {
    std::vector<std::string> cases;  ///< names in the case table; empty: all that the board allows
    int degree = 0;                  ///< 1..6; 0: the default
    double max_size = 0;             ///< longest quad side [m]; 0: the default
    std::optional<double> rel_error; ///< refine until every bar / value is below this
    int threads = 0;                 ///< 0: as many as cores
    /// Told at the start of every phase ("mesh", "sections", ...) with the share done, 0..1. May
    /// throw to cancel.
    std::function<void(const std::string& phase, double share)> progress;
};

/// Runs the cases on the board. \throws InputError for a named case the board cannot have (an
/// unknown name too), SolveError when it cannot be computed.
StudyResult run_study(const Board& board, const StudyOptions& options);

} // namespace vrid
