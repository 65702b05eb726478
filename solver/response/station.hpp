#pragma once

#include <vector>

#include "solver/laminate/layup.hpp"

namespace vrid {

/// A part of the line across the board at one station with one stack of layers; its section is
/// constant but where the core's thickness changes across the board.
struct StationPart {
    double y_from = 0, y_to = 0; ///< [m]
    StackKey key;
};

/// All parts at station x, from right to left; nothing outside the board.
std::vector<StationPart> station_parts(const Layup<double>& layup, double x);
/// The parts of station x cut where the core's thickness kinks across the board and, between kinks
/// where it is not level, in slices no wider than `size` [m]. As they are without such a change.
std::vector<StationPart> thickness_slices(const Layup<double>& layup, double x,
                                          std::vector<StationPart> parts, double size);
/// Which of a station's parts lies on the long axis or nearest to it; the left one at a border.
/// There must be one.
std::size_t part_on_axis(const std::vector<StationPart>& parts);

/// Stations at which the section jumps or kinks or the outline has a piece's end, rising, between
/// and including the tips [m].
std::vector<double> station_breaks(const Board& board);

/// Distances from the outline at which the stack may change [m].
std::vector<double> band_distances(const Board& board);

} // namespace vrid
