#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "io/write/limits.hpp"

namespace vrid {

/// "loss nose" of "edge 45 deg 800 N 5 N/mm3 right share 0.4 bent loss nose": the number that a
/// name tells in a condition of the edge; empty for other names.
std::string number_in_condition(const std::string& name);

/// One limit, or the same on one number of the edge in several conditions.
struct HeldLimit {
    LimitVerdict worst; ///< farthest outside, or nearest to a bound
    std::size_t conditions = 1, outside = 0;
};

/// In the order of the first of each. Verdicts of one number of the edge under the same bounds are
/// one; all others stand alone.
std::vector<HeldLimit> held_limits(const std::vector<LimitVerdict>& verdicts);

/// "in 10 of 12 conditions", "in all 12 conditions"; empty of one.
std::string conditions_words(const HeldLimit& held);

} // namespace vrid
