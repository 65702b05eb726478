#pragma once

#include "io/write/match_report.hpp"

namespace vrid::tests {

/// All that a report of `vrid match` refers to: three values (a core station, a layer's angle, a
/// coupon's width) with round limits, one slope limit, one target "nose-twist" that was met.
struct MatchExample {
    Board board;
    Goal goal;
    MatchProblem problem;
    MatchResult result;
    MatchExample();
    [[nodiscard]] MatchReport report() const;
    /// Adds a target that was met exactly; the reference holds until the next is added.
    MatchedTarget& add_target(const NumberId& number, const Quantity& before,
                              const Quantity& after);
};

} // namespace vrid::tests
