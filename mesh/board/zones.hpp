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

/// Whether the zone is the whole board.
bool is_everywhere(const Zone& zone);

} // namespace vrid
