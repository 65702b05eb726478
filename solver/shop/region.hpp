#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/layup.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

/// A closed line through these corners, the last joined to the first [m].
using Loop = std::vector<Eigen::Vector2d>;

/// A part of the plane: outer borders run counter-clockwise, those of holes clockwise. Corners lie
/// on a grid of 1 nm.
struct Region {
    std::vector<Loop> loops;
    [[nodiscard]] bool empty() const { return loops.empty(); }
};

/// The board seen from above; its curves as chords within 20 nm of them.
Region planform_region(const Planform& planform);
Region rectangle_region(const Range& x, const Range& y);
/// Corners in order, either way round.
Region polygon_region(const Loop& corners);

Region common(const Region& a, const Region& b);
Region united(const Region& a, const Region& b);
Region without(const Region& a, const Region& b);
/// What lies farther than `distance` inside the border (>= 0) [m].
Region inset(const Region& region, double distance);
/// Reflected in y = 0.
Region mirrored(const Region& region);
/// Turned about the origin [rad].
Region turned(const Region& region, double angle);
/// Pieces that do not touch, each with its holes, from tail to nose and from right to left. Crumbs
/// below 0.1 mm2 are left out: no knife cuts them.
std::vector<Region> connected_parts(const Region& region);

double area(const Region& region); ///< [m2]

/// Smallest and largest x and y. The region must not be empty.
struct Extent {
    Range x, y;
};
Extent extent(const Region& region);

/// The region without corners that lie within `tolerance` of what remains, for drawings [m].
Region simplified(const Region& region, double tolerance);

} // namespace vrid
