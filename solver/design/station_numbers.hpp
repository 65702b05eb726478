#pragma once

#include <memory>
#include <vector>

#include "solver/design/number_id.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// EI, GJ or thickness at a station.
struct StationNumber {
    double value = 0;                              ///< SI
    std::shared_ptr<const SectionWeights> weights; ///< one column; null: of a thickness, or unasked
};

/// \param requests of these three kinds; each station is looked at once
std::vector<StationNumber> station_numbers(const Board& board,
                                           const std::vector<NumberId>& requests, bool weights);

} // namespace vrid
