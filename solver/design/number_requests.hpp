#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/design/number_id.hpp"

namespace vrid {

// What must be computed for the numbers that are asked for.

/// Whether it is made of a number of the released board and of the line of a mould: of the mould
/// for the rest shape, or of the board out of a mould that exists ("pressed").
bool is_of_mould(const NumberId& request);

/// Whether run_study gives it.
bool in_study(const NumberId& request);

/// The bench case that gives a number of kind bench_case or mode, of a shape or of a bent board.
std::string case_of(const NumberId& request);

/// The cases that a study must run for the numbers, each once; none: it needs no study.
std::vector<std::string> cases_of(const std::vector<NumberId>& requests);

/// Travels of the bent board, rising, each once [m].
std::vector<double> travels_of(const std::vector<NumberId>& requests);
/// Names of the bent board's numbers, each once.
std::vector<std::string> bent_numbers_of(const std::vector<NumberId>& requests);

/// Stations at which the hollow of a cooled board is asked for [m].
std::vector<double> concavity_stations(const std::vector<NumberId>& requests);

/// Every number a board has without a station or an edge: mass, balance point, sidecut radius (not
/// of straight sides), length, area, all bench cases that it allows, six frequencies.
std::vector<NumberId> plain_requests(const Board& board);

/// Every number of the board bent to some travels [m].
std::vector<NumberId> bent_requests(const Board& board, const std::vector<double>& travels);

} // namespace vrid
