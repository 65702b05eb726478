#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/curve.hpp"
#include "mesh/lines.hpp"

namespace vrid {

/// A stretch of a mesh line between two vertices, free of crossings inside.
struct GraphEdge {
    int a = 0, b = 0;        ///< vertices
    int loop = -1;           ///< the loop it lies on; -1: straight
    double from = 0, to = 0; ///< parameters on its line: of the loop, or length from its start [m]
    int line = -1;           ///< index of its name; -1: a cut
    Rank rank = Rank::cut;
    bool boundary = false; ///< the meshed region lies on its left only
};

/// A stretch of a line that is not to be followed.
struct Omission {
    int line = 0;
    double from = 0, to = 0; ///< parameters as in GraphEdge
};

/// All lines split at their crossings, inside the board. Vertices nearer than 0.05 mm are one.
struct LineGraph {
    std::vector<Eigen::Vector2d> vertices;
    std::vector<GraphEdge> edges;
    std::vector<Loop> loops;
    std::vector<std::string> names; ///< by GraphEdge::line
    bool half = false;              ///< only y >= 0 is there; the rest is its mirror image
};

/// The point of an edge at share u of its way from a to b; ends exactly at its vertices.
Eigen::Vector2d point_on(const LineGraph& graph, const GraphEdge& edge, double u);
/// Unit direction of travel at the end `a` (at_b false) or at `b`.
Eigen::Vector2d direction_at(const LineGraph& graph, const GraphEdge& edge, bool at_b);

/// Builds the graph. Where lines meet at less than about 8 degrees the one of lower rank is left
/// out between its neighbouring crossings; such stretches, if hard, are appended to `omitted`.
LineGraph split_lines(const Planform& planform, const MeshLines& lines,
                      std::vector<Omission>& omitted);

/// Takes out, at every vertex where two edges leave at less than 8 degrees (25 if one is soft), the
/// one of lower rank; then edges that end nowhere, and joins edges that nothing separates any more.
/// What was taken out of a line is appended to `omitted`.
void drop_grazing_lines(LineGraph& graph, std::vector<Omission>& omitted);

} // namespace vrid
