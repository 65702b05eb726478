#pragma once

#include <vector>

#include "solver/laminate/layup.hpp"

namespace vrid {

/// A part of the line across the board at one station with one stack of layers; the core is equally
/// thick along it, so its section is constant.
struct StationPart {
    double y_from = 0, y_to = 0; ///< [m]
    StackKey key;
};

/// All parts at station x, from right to left; nothing outside the board.
std::vector<StationPart> station_parts(const Layup<double>& layup, double x);
/// Which of a station's parts lies on the long axis or nearest to it; the left one at a border.
/// There must be one.
std::size_t part_on_axis(const std::vector<StationPart>& parts);

/// Stations at which the section jumps or kinks or the outline has a piece's end, rising, between
/// and including the tips [m].
std::vector<double> station_breaks(const Board& board);

/// Distances from the outline at which the stack may change [m].
std::vector<double> band_distances(const Board& board);

} // namespace vrid
