#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/planar_map.hpp"

namespace vrid::tests {

/// The region within a polygon, its corners counter-clockwise: one boundary edge a side, along
/// line 0.
LineGraph polygon_graph(const std::vector<Eigen::Vector2d>& corners);

/// Adds a straight edge between two vertices.
GraphEdge& add_edge(LineGraph& graph, int a, int b, Rank rank = Rank::zone, int line = -1);

/// One half-edge a face, the outside left out.
std::vector<int> faces_of(const PlanarMap& map);
/// Of the polygon of a face's corners [m2].
double corner_area(const PlanarMap& map, int half_edge);
/// Areas of all faces, rising.
std::vector<double> corner_areas(const PlanarMap& map);

} // namespace vrid::tests
