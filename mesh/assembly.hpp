#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/blocks.hpp"
#include "mesh/mesh.hpp"

namespace vrid {

/// Corner points of the quads of one block: (columns + 1) x (rows + 1), u fastest. Those on the
/// sides of the block are taken from its edges, whatever stands here.
struct BlockGrid {
    int columns = 1, rows = 1;
    std::vector<Eigen::Vector2d> points;
};

/// Corner points by Coons' surface between the sides.
BlockGrid coons_grid(const PlanarMap& map, const BlockMesh& blocks, int block);

/// The mesh from its blocks: numbering, curved geometry, stations (those of which the whole line
/// is there), outline. `quad_block`, if given, receives the block of each quad.
Mesh assemble_mesh(const PlanarMap& map, const BlockMesh& blocks,
                   const std::vector<BlockGrid>& grids, int geometry_degree,
                   std::vector<int>* quad_block = nullptr);

/// Fills Mesh::lines: stations at which mesh edges run across the whole width.
void find_station_lines(Mesh& mesh, const Planform& planform, const std::vector<double>& stations);

} // namespace vrid
