#include "mesh/mesher.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <sstream>
#include <string>

#include "mesh/assembly.hpp"
#include "mesh/blocks.hpp"
#include "mesh/board/error.hpp"
#include "mesh/face_cuts.hpp"
#include "mesh/lines.hpp"
#include "mesh/quality.hpp"

namespace vrid {

using Eigen::Vector2d;

namespace {

std::string place_text(const Vector2d& p) {
    std::ostringstream text;
    text << "x = " << std::round(p.x() * 1e4) / 10 << " mm, y = " << std::round(p.y() * 1e4) / 10
         << " mm";
    return text.str();
}

} // namespace

Mesh mesh_planform(const Board& board, const MeshOptions& options) {
    const MeshLines lines = collect_lines(board, options);
    std::vector<Omission> omitted;
    PlanarMap map(split_lines(board.planform, lines, omitted));
    const auto failure = cut_to_convex(map);
    if (failure) {
        throw SolveError("mesh",
                         failure->why + " at " + place_text(map.point(failure->half_edge, 0)));
    }
    const BlockMesh blocks = make_blocks(map, options.max_size);
    std::vector<BlockGrid> grids;
    for (std::size_t k = 0; k < blocks.blocks.size(); ++k) {
        grids.push_back(coons_grid(map, blocks, static_cast<int>(k)));
    }
    Mesh mesh = assemble_mesh(map, blocks, grids, options.geometry_degree);
    find_station_lines(mesh, board.planform, lines.stations);
    const WorstPlace worst = worst_place(mesh);
    mesh.min_scaled_jacobian = worst.corner_sine;
    return mesh;
}

} // namespace vrid
