#pragma once

#include <string>
#include <vector>

#include "solver/cases/cases.hpp"
#include "solver/response/result.hpp"

namespace vrid {

/// Which bench cases a study runs.
struct Selection {
    std::vector<const BenchCase*> run{};
    std::vector<CaseResult> results{}; ///< one per listed case, skipped ones filled in
    std::vector<std::size_t> place{};  ///< of each run case in results
};

/// \param names of cases; empty: all that the board allows. \throws InputError for one that the
/// board cannot have
Selection select_cases(const Board& board, const std::vector<std::string>& names);

} // namespace vrid
