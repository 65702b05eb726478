#include "mesh/mesher.hpp"

#include <algorithm>
#include <map>

#include "mesh/block_plan.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/dense_memory.hpp"
#include "mesh/gmsh_session.hpp"
#include "mesh/index.hpp"

namespace vrid {

namespace {

// Blocks handed to Gmsh as transfinite surfaces: every quad side on a block's edge is a line.
class GmshBlocks {
  public:
    GmshBlocks(GmshSession& session, const PlanarMap& map, const BlockMesh& blocks)
        : gmsh_(session), map_(map), blocks_(blocks) {
        point_.resize(blocks.vertices.size(), 0);
        sides_.resize(blocks.edges.size());
    }

    void add(int block) {
        const Block& b = blocks_.blocks[index(block)];
        std::vector<int> loop;
        std::vector<int> corners;
        for (std::size_t k = 0; k < 4; ++k) {
            const Side& side = side_of(b.edges[k]);
            corners.push_back(point_[index(b.vertices[k])]);
            if (b.backwards[k]) {
                for (std::size_t i = side.lines.size(); i-- > 0;) {
                    loop.push_back(-side.lines[i]);
                }
            } else {
                loop.insert(loop.end(), side.lines.begin(), side.lines.end());
            }
        }
        gmsh_.add_grid(loop, corners, block + 1);
    }

    void generate() {
        gmsh_.generate();
        const auto [tags, coordinates] = gmsh_.nodes();
        for (std::size_t k = 0; k < tags.size(); ++k) {
            position_[tags[k]] = {coordinates[3 * k], coordinates[3 * k + 1]};
        }
    }

    // The inner points of a block's grid from Gmsh's mesh of it.
    void read(int block, BlockGrid& grid) const {
        const std::vector<std::size_t> nodes = gmsh_.quads(block + 1);
        if (nodes.size() != 4 * index(grid.columns) * index(grid.rows)) {
            throw SolveError("mesh", "Gmsh did not fill a block with quads");
        }
        place(nodes, block, grid);
    }

  private:
    struct Side {
        std::vector<int> points, lines; // tags from a to b
    };

    int add_point(const Vector2d& p) {
        gmsh_.add_point(p.x(), p.y(), ++points_);
        return points_;
    }

    const Side& side_of(int e) {
        Side& side = sides_[index(e)];
        if (!side.lines.empty()) {
            return side;
        }
        const BlockEdge& edge = blocks_.edges[index(e)];
        std::vector<double> shares;
        for (int i = 0; i <= edge.divisions; ++i) {
            shares.push_back(static_cast<double>(i) / edge.divisions);
        }
        const std::vector<Vector2d> p = points_on(map_, blocks_, e, shares);
        for (int i = 0; i <= edge.divisions; ++i) {
            if (i > 0 && i < edge.divisions) {
                side.points.push_back(add_point(p[index(i)]));
                continue;
            }
            int& tag = point_[index(i == 0 ? edge.a : edge.b)];
            tag = tag == 0 ? add_point(p[index(i)]) : tag;
            side.points.push_back(tag);
        }
        for (int i = 0; i < edge.divisions; ++i) {
            gmsh_.add_side(side.points[index(i)], side.points[index(i + 1)], ++lines_);
            side.lines.push_back(lines_);
        }
        return side;
    }

    // Gmsh numbers the node of a point like the point: bottom and left are known, and each quad
    // with three known nodes gives the fourth.
    void place(const std::vector<std::size_t>& nodes, int block, BlockGrid& grid) const {
        const Block& b = blocks_.blocks[index(block)];
        std::map<std::pair<std::size_t, std::size_t>, std::vector<std::size_t>> quads_at;
        for (std::size_t q = 0; q < nodes.size() / 4; ++q) {
            for (std::size_t k = 0; k < 4; ++k) {
                quads_at[std::minmax(nodes[4 * q + k], nodes[4 * q + (k + 1) % 4])].push_back(q);
            }
        }
        std::vector<std::size_t> below = tags_of(b, 0);
        const std::vector<std::size_t> left = tags_of(b, 3);
        std::vector<bool> used(nodes.size() / 4, false);
        for (int j = 1; j < grid.rows; ++j) {
            std::vector<std::size_t> row{left[index(j)]};
            for (int i = 0; i < grid.columns; ++i) {
                row.push_back(fourth(nodes, quads_at[std::minmax(below[index(i)], row.back())],
                                     {below[index(i)], below[index(i + 1)], row.back()}, used));
                grid.points[index(j * (grid.columns + 1) + i + 1)] = position_.at(row.back());
            }
            below = std::move(row);
        }
    }

    static std::size_t fourth(const std::vector<std::size_t>& nodes,
                              const std::vector<std::size_t>& quads,
                              const std::array<std::size_t, 3>& known, std::vector<bool>& used) {
        for (const std::size_t q : quads) {
            const auto first = nodes.begin() + static_cast<std::ptrdiff_t>(4 * q);
            if (used[q] || std::find(first, first + 4, known[1]) == first + 4) {
                continue;
            }
            used[q] = true;
            for (auto node = first; node != first + 4; ++node) {
                if (!contains(known, *node)) {
                    return *node;
                }
            }
        }
        throw SolveError("mesh", "Gmsh's mesh of a block is not a grid");
    }

    // Node tags along side 0 or, from the bottom up, side 3.
    [[nodiscard]] std::vector<std::size_t> tags_of(const Block& b, std::size_t k) const {
        const std::vector<int>& points = sides_[index(b.edges[k])].points;
        std::vector<std::size_t> tags(points.begin(), points.end());
        if (b.backwards[k] != (k >= 2)) {
            std::ranges::reverse(tags);
        }
        return tags;
    }

    GmshSession& gmsh_;
    const PlanarMap& map_;
    const BlockMesh& blocks_;
    std::vector<int> point_; // tag per block vertex
    std::vector<Side> sides_;
    std::map<std::size_t, Vector2d> position_;
    int points_ = 0, lines_ = 0;
};

BlockGrid mirror_image(const BlockGrid& grid) {
    BlockGrid image{grid.rows, grid.columns, grid.points};
    for (int j = 0; j <= grid.rows; ++j) {
        for (int i = 0; i <= grid.columns; ++i) {
            const Vector2d& p = grid.points[index(j * (grid.columns + 1) + i)];
            image.points[index(i * (grid.rows + 1) + j)] = {p.x(), -p.y()};
        }
    }
    return image;
}

// Only blocks with inner points are Gmsh's work: the quads of the others are given by their sides.
void fill_with_gmsh(const PlanarMap& map, const BlockMesh& blocks, std::vector<BlockGrid>& grids) {
    const std::size_t count = blocks.half > 0 ? index(blocks.half) : grids.size();
    std::vector<int> inner;
    for (std::size_t k = 0; k < count; ++k) {
        if (grids[k].columns > 1 && grids[k].rows > 1) {
            inner.push_back(static_cast<int>(k));
        }
    }
    if (inner.empty()) {
        return;
    }
    GmshSession session;
    GmshBlocks surfaces(session, map, blocks);
    for (const int k : inner) {
        surfaces.add(k);
    }
    surfaces.generate();
    for (const int k : inner) {
        surfaces.read(k, grids[index(k)]);
    }
    for (std::size_t k = 0; k < count && count < grids.size(); ++k) {
        grids[count + k] = mirror_image(grids[k]);
    }
}

} // namespace

Mesh mesh_planform(const Board& board, const MeshOptions& options) {
    prepare_dense(1); // whatever multiplies matrices of a board has its mesh first
    const MeshLines lines = collect_lines(board, options);
    const BlockPlan plan = plan_blocks(board.planform, lines, options);
    std::vector<BlockGrid> grids = plan.grids;
    fill_with_gmsh(plan.map, plan.blocks, grids);
    Mesh mesh = assemble_mesh(plan.map, plan.blocks, grids, options.geometry_degree);
    WorstPlace worst = worst_place(mesh);
    if (worst.corner_sine <= smallest_corner_sine || worst.inner_sine <= 0) {
        // Gmsh spaces inner points by chord lengths, which can fail where a block is very curved
        mesh = assemble_mesh(plan.map, plan.blocks, plan.grids, options.geometry_degree);
        worst = worst_place(mesh);
    }
    mesh.min_scaled_jacobian = worst.corner_sine;
    mesh.notes = plan.notes;
    find_station_lines(mesh, board.planform, lines.stations);
    return mesh;
}

} // namespace vrid
