#pragma once

#include <vector>

#include "mesh/board/board.hpp"

namespace vrid::measure {

/// The bent board against the seven cases at rest, in turn: seconds of the process on one thread.
struct BendCost {
    std::vector<double> plain;  ///< the seven static cases, bars included
    std::vector<double> bent;   ///< centre-flex to 60 mm with its two twists, bars included
    std::vector<double> slopes; ///< the same with the derivatives of its numbers
    std::vector<double> edge;   ///< one condition on the edge in large motion, bars included
    [[nodiscard]] std::vector<double> over_plain(const std::vector<double>& seconds) const;
    [[nodiscard]] std::vector<double> slopes_over_plain() const; ///< what they cost beyond `bent`
};
BendCost bend_cost(const Board& board, int rounds);

} // namespace vrid::measure
