#pragma once

#include <optional>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/layup.hpp"

namespace vrid {

/// A corner of a polygon at which its next side meets a side that is not its neighbour, or has no
/// length; nothing of a sound polygon. \param polygon at least three corners, either way round [m]
std::optional<std::size_t> crossing_corner(const std::vector<Eigen::Vector2d>& polygon);

/// Whether a point is within the polygon (even-odd).
bool in_polygon(const std::vector<Eigen::Vector2d>& polygon, const Eigen::Vector2d& point);

/// Where the polygon's sides cross the line at station x: rising, two by two inside [m].
std::vector<double> polygon_crossings(const std::vector<Eigen::Vector2d>& polygon, double x);

/// All zones of a layer; one that is empty when it is everywhere.
std::vector<Zone> zones_of(const Layer& layer);

/// The zones of a layer in which its 0 direction is the same: it lies there once, also where they
/// overlap.
struct ZoneGroup {
    double turn = 0; ///< of the 0 direction against +x, which runs along a ribbon [rad]
    std::vector<Zone> zones;
};

/// A layer's zones by direction, in the file's order. Ribbons of different directions are pieces of
/// their own and lie on each other where they cross.
std::vector<ZoneGroup> zone_groups(const Layer& layer);

/// Whether the zone is the whole board.
bool is_everywhere(const Zone& zone);

} // namespace vrid
