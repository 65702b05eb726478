#pragma once

#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// Stations at which a core's half width is asked for, rising, and how much of the length each
/// stands for [m].
struct HalfStations {
    std::vector<double> x, length;
};

/// Between the tips, or the tip spacers, nowhere across the end of a sidewall or one of `ends`;
/// between two ends a fixed number, which move with them, so that sums over them are smooth.
HalfStations half_stations(const Board& board, std::vector<double> ends);

/// Half widths to the outline on one side of y = 0 (1: y > 0, -1), and the outline's places there;
/// 0 and piece -1 where there is no board.
struct HalfWidths {
    std::vector<double> width; ///< [m]
    std::vector<OutlinePlace> place;
};
HalfWidths half_widths(const Planform& planform, double side, const std::vector<double>& x);

/// The slope of a half width at a station is that between its neighbours.
struct Neighbours {
    std::size_t before = 0, after = 0;
    double way = 0; ///< between them [m]
};
Neighbours neighbours(const HalfStations& stations, std::size_t k);

/// Half widths of the core, of those to the outline: a sidewall is as wide as it says normal to
/// the outline [m].
std::vector<double> less_sidewall(const Board& board, const HalfStations& stations,
                                  const std::vector<double>& outline);

} // namespace vrid
