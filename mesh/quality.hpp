#pragma once

#include <array>

#include <Eigen/Core>

#include "mesh/mesh.hpp"

namespace vrid {

/// Smallest sine of the corner angles of a straight-sided quad, signed (counter-clockwise > 0).
double smallest_sine(const std::array<Eigen::Vector2d, 4>& corners);

/// The worst place of a mesh: smallest signed sine of the angle between the coordinate lines, over
/// the corners of the straight-sided quads and all points of the geometry.
struct WorstPlace {
    double corner_sine = 1; ///< over the corners, straight-sided and curved
    double inner_sine = 1;  ///< over all points of the geometry
    int corner_quad = 0, inner_quad = 0;
};
WorstPlace worst_place(const Mesh& mesh);

} // namespace vrid
