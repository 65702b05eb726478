#pragma once

#include "io/write/result_document.hpp"
#include "io/write/solved_board.hpp"

namespace vrid {

FoundCase found_cooled(const CaseResult& result);
/// Not rounded, which is for who writes it; empty without the case `release`.
std::vector<FoundMould> found_mould(const SolvedBoard& solved);

/// The mould as a file for who mills the mould, with the board out of a mould that exists where
/// there is one; empty without the case `release`.
std::string mould_csv(const SolvedBoard& solved);

} // namespace vrid
