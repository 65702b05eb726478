#pragma once

#include <optional>
#include <vector>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// Whether a lot scatters as declared, of boards with every cell measured.
struct LotSpread {
    double statistic = 0;
    int degrees = 0;
    double p = 1;
    int boards = 0;
};
/// Likelihood ratio of the lot's own covariance against that of the model, with Bartlett's factor
/// (T. W. Anderson, An Introduction to Multivariate Statistical Analysis, 1958, from memory).
/// Nothing below three complete boards a number.
std::optional<LotSpread> lot_spread(const LotModel& model, const LotCells& cells);

/// One number's variance over the declared one, with its 95 % interval.
struct NumberSpread {
    double mean = 0; ///< of the readings minus prediction
    double sd = 0;
    int cells = 0;
    double ratio = 1, low = 0, high = 0;
};
std::vector<NumberSpread> number_spreads(const LotModel& model, const LotCells& cells);

} // namespace vrid
