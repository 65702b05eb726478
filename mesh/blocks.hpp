#pragma once

#include <array>
#include <vector>

#include <Eigen/Core>

#include "mesh/planar_map.hpp"

namespace vrid {

/// A side shared by blocks: a stretch of an edge of the planar map, a straight line, or a line
/// half-way between two opposite sides of a face.
struct BlockEdge {
    int a = 0, b = 0;        ///< vertices
    int line = -1;           ///< half-edge of the map that it follows; -1: none
    int blend_with = -1;     ///< half-edge of the map on the other side, if half-way between two
    double from = 0, to = 1; ///< shares along the half-edge(s)
    bool mirrored = false;   ///< y is negated
    bool boundary = false;   ///< on the outline
    int divisions = 1;
};

/// Four-sided block, to be divided into quads; vertices and edges counter-clockwise, edge k from
/// vertex k to vertex k + 1 (`backwards`: the edge's own direction is the other way).
struct Block {
    std::array<int, 4> vertices{}, edges{};
    std::array<bool, 4> backwards{};
    int half_edge = 0; ///< of the face of the map that it lies in
};

struct BlockMesh {
    std::vector<Eigen::Vector2d> vertices;
    std::vector<BlockEdge> edges;
    std::vector<Block> blocks;
    /// Number of blocks in the first half, if the second half of the list is its mirror image in
    /// the same order (u and v exchanged); else 0.
    int half = 0;
};

/// Splits the faces of a map with only convex faces into four-sided blocks: a face with other than
/// four corners is divided from its middle to the middle of each side, and such divisions run on
/// through the four-sided faces. Opposite edges of a block get equal numbers of divisions, so that
/// no quad is longer than max_size or turns by more than 40 degrees. A half map is completed.
BlockMesh make_blocks(const PlanarMap& map, double max_size);

/// Sets BlockEdge::divisions as make_blocks describes.
void set_divisions(const PlanarMap& map, BlockMesh& blocks, double max_size);

/// Points of a block edge at shares u of its way from a to b.
std::vector<Eigen::Vector2d> points_on(const PlanarMap& map, const BlockMesh& blocks, int edge,
                                       const std::vector<double>& u);

/// Coons' surface between four sides: each holds the points at the same shares, sides 0 and 2
/// running along +u, sides 3 and 1 along +v.
struct CoonsSides {
    Eigen::Vector2d bottom, top, left, right; ///< points of the sides at u, u, v, v
    std::array<Eigen::Vector2d, 4> corners;   ///< counter-clockwise from u = v = 0
};
Eigen::Vector2d coons(const CoonsSides& sides, double u, double v);

} // namespace vrid
