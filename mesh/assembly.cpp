#include "mesh/assembly.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/board/same_place.hpp"
#include "mesh/index.hpp"
#include "mesh/lobatto.hpp"

namespace vrid {

using Points = std::vector<Vector2d>;

namespace {

// Shares of all points of a line of n quads: n g + 1 of them.
std::vector<double> fine_shares(int n, int g) {
    const std::vector<double>& lobatto = lobatto_shares(g);
    std::vector<double> shares;
    for (int i = 0; i < n; ++i) {
        for (int k = 0; k < g; ++k) {
            shares.push_back((i + lobatto[index(k)]) / n);
        }
    }
    shares.push_back(1);
    return shares;
}

// The sides of a block, all along +u or +v, at the fine shares.
struct BlockSides {
    Points bottom, right, top, left;
};

BlockSides sides_of(const Block& block, const std::vector<Points>& edge_points) {
    std::array<Points, 4> side;
    for (std::size_t k = 0; k < 4; ++k) {
        side[k] = edge_points[index(block.edges[k])];
        if (block.backwards[k] != (k >= 2)) {
            std::ranges::reverse(side[k]);
        }
    }
    return {side[0], side[1], side[2], side[3]};
}

Vector2d coons_at(const BlockSides& s, int a, int b, double u, double v) {
    return coons({s.bottom[index(a)],
                  s.top[index(a)],
                  s.left[index(b)],
                  s.right[index(b)],
                  {s.bottom.front(), s.bottom.back(), s.top.back(), s.top.front()}},
                 u, v);
}

class Assembler {
  public:
    Assembler(const PlanarMap& map, const BlockMesh& blocks, int degree)
        : map_(map), blocks_(blocks), g_(degree) {
        mesh_.geometry_degree = degree;
        mesh_.vertices = blocks.vertices;
        for (std::size_t e = 0; e < blocks.edges.size(); ++e) {
            add_block_edge(static_cast<int>(e));
        }
    }

    void add_block(const Block& block, const BlockGrid& grid) {
        n_ = grid.columns;
        m_ = grid.rows;
        block_ = &block;
        sides_ = sides_of(block, edge_points_);
        place_vertices(grid);
        place_lines();
        for (int j = 0; j < m_; ++j) {
            for (int i = 0; i < n_; ++i) {
                add_quad(i, j);
            }
        }
    }

    Mesh take() { return std::move(mesh_); }

  private:
    void add_block_edge(int e) {
        const BlockEdge& edge = blocks_.edges[index(e)];
        const int n = edge.divisions;
        edge_points_.push_back(points_on(map_, blocks_, e, fine_shares(n, g_)));
        edge_points_.back().front() = mesh_.vertices[index(edge.a)];
        edge_points_.back().back() = mesh_.vertices[index(edge.b)];
        std::vector<int> vertices{edge.a};
        for (int i = 1; i < n; ++i) {
            vertices.push_back(static_cast<int>(mesh_.vertices.size()));
            mesh_.vertices.push_back(edge_points_.back()[index(i * g_)]);
        }
        vertices.push_back(edge.b);
        first_edge_.push_back(static_cast<int>(mesh_.edges.size()));
        for (int i = 0; i < n; ++i) {
            add_edge(vertices[index(i)], vertices[index(i + 1)]);
        }
        edge_vertices_.push_back(std::move(vertices));
    }

    int add_edge(int a, int b) {
        mesh_.edges.push_back({std::min(a, b), std::max(a, b)});
        return static_cast<int>(mesh_.edges.size()) - 1;
    }

    int& vertex(int i, int j) { return vertices_[index(j * (n_ + 1) + i)]; }

    void place_vertices(const BlockGrid& grid) {
        vertices_.assign(index((n_ + 1) * (m_ + 1)), -1);
        for (int k = 0; k < 4; ++k) {
            const int length = k % 2 == 0 ? n_ : m_;
            for (int s = 0; s <= length; ++s) {
                const std::vector<int>& on = edge_vertices_[index(block_->edges[index(k)])];
                const int v = on[index(block_->backwards[index(k)] ? length - s : s)];
                const std::array<std::array<int, 2>, 4> at{
                    {{s, 0}, {n_, s}, {n_ - s, m_}, {0, m_ - s}}};
                vertex(at[index(k)][0], at[index(k)][1]) = v;
            }
        }
        for (int j = 1; j < m_; ++j) {
            for (int i = 1; i < n_; ++i) {
                vertex(i, j) = static_cast<int>(mesh_.vertices.size());
                mesh_.vertices.push_back(grid.points[index(j * (n_ + 1) + i)]);
            }
        }
    }

    // One mesh edge inside the block with its points, corrected to end at the vertices.
    void place_inner(Points points, int a, int b, std::vector<Points>& lines,
                     std::vector<int>& edges) {
        const std::vector<double>& share = lobatto_shares(g_);
        const Vector2d at_a = mesh_.vertices[index(a)] - points.front();
        const Vector2d at_b = mesh_.vertices[index(b)] - points.back();
        for (std::size_t k = 0; k < points.size(); ++k) {
            points[k] += (1 - share[k]) * at_a + share[k] * at_b;
        }
        points.front() = mesh_.vertices[index(a)];
        points.back() = mesh_.vertices[index(b)];
        lines.push_back(std::move(points));
        edges.push_back(add_edge(a, b));
    }

    [[nodiscard]] Points part_of(const Points& side, int i) const {
        const std::ptrdiff_t g = g_;
        return {side.begin() + i * g, side.begin() + (i + 1) * g + 1};
    }
    [[nodiscard]] int edge_of(std::size_t side, int i) const {
        const int length = side % 2 == 0 ? n_ : m_;
        const bool against = block_->backwards[side] != (side >= 2);
        return first_edge_[index(block_->edges[side])] + (against ? length - 1 - i : i);
    }

    // Lines along u (rows 0..m) and along v (columns 0..n), cut into quad sides.
    void place_lines() {
        const std::vector<double> u = fine_shares(n_, g_);
        const std::vector<double> v = fine_shares(m_, g_);
        rows_.clear();
        columns_.clear();
        row_edges_.clear();
        column_edges_.clear();
        for (int j = 0; j <= m_; ++j) {
            for (int i = 0; i < n_; ++i) {
                if (j == 0 || j == m_) {
                    rows_.push_back(part_of(j == 0 ? sides_.bottom : sides_.top, i));
                    row_edges_.push_back(edge_of(j == 0 ? 0 : 2, i));
                    continue;
                }
                Points points;
                for (int k = i * g_; k <= (i + 1) * g_; ++k) {
                    points.push_back(coons_at(sides_, k, j * g_, u[index(k)], v[index(j * g_)]));
                }
                place_inner(std::move(points), vertex(i, j), vertex(i + 1, j), rows_, row_edges_);
            }
        }
        for (int i = 0; i <= n_; ++i) {
            for (int j = 0; j < m_; ++j) {
                if (i == 0 || i == n_) {
                    columns_.push_back(part_of(i == 0 ? sides_.left : sides_.right, j));
                    column_edges_.push_back(edge_of(i == 0 ? 3 : 1, j));
                    continue;
                }
                Points points;
                for (int k = j * g_; k <= (j + 1) * g_; ++k) {
                    points.push_back(coons_at(sides_, i * g_, k, u[index(i * g_)], v[index(k)]));
                }
                place_inner(std::move(points), vertex(i, j), vertex(i, j + 1), columns_,
                            column_edges_);
            }
        }
    }

    void add_quad(int i, int j) {
        const BlockSides s{rows_[index(j * n_ + i)], columns_[index((i + 1) * m_ + j)],
                           rows_[index((j + 1) * n_ + i)], columns_[index(i * m_ + j)]};
        const std::vector<double>& share = lobatto_shares(g_);
        Eigen::Matrix2Xd points(2, (g_ + 1) * (g_ + 1));
        for (int b = 0; b <= g_; ++b) {
            for (int a = 0; a <= g_; ++a) {
                Vector2d p;
                if (b == 0 || b == g_) { // exactly, so that neighbours agree to the last bit
                    p = (b == 0 ? s.bottom : s.top)[index(a)];
                } else if (a == 0 || a == g_) {
                    p = (a == 0 ? s.left : s.right)[index(b)];
                } else {
                    p = coons_at(s, a, b, share[index(a)], share[index(b)]);
                }
                points.col(b * (g_ + 1) + a) = p;
            }
        }
        mesh_.geometry.push_back(std::move(points));
        mesh_.quads.push_back(
            {vertex(i, j), vertex(i + 1, j), vertex(i + 1, j + 1), vertex(i, j + 1)});
        mesh_.quad_edges.push_back(
            {row_edges_[index(j * n_ + i)], column_edges_[index((i + 1) * m_ + j)],
             row_edges_[index((j + 1) * n_ + i)], column_edges_[index(i * m_ + j)]});
    }

    const PlanarMap& map_;
    const BlockMesh& blocks_;
    int g_;
    Mesh mesh_;
    std::vector<Points> edge_points_;             // per block edge, at its fine shares
    std::vector<std::vector<int>> edge_vertices_; // per block edge, divisions + 1
    std::vector<int> first_edge_;                 // per block edge: its first mesh edge
    // of the block in hand
    const Block* block_ = nullptr;
    int n_ = 0, m_ = 0;
    BlockSides sides_;
    std::vector<int> vertices_, row_edges_, column_edges_;
    std::vector<Points> rows_, columns_;
};

// Sides that only one quad has, joined end to start counter-clockwise.
void find_outline(Mesh& mesh) {
    std::vector<int> uses(mesh.edges.size(), 0);
    for (const auto& edges : mesh.quad_edges) {
        for (const int e : edges) {
            ++uses[index(e)];
        }
    }
    std::map<int, OutlineEdge> from; // by the vertex at which the side starts
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        for (int k = 0; k < 4; ++k) {
            if (uses[index(mesh.quad_edges[q][index(k)])] == 1) {
                from[mesh.quads[q][index(k)]] = {static_cast<int>(q), k};
            }
        }
    }
    if (from.empty()) {
        return;
    }
    const int start = from.begin()->first;
    int at = start;
    do {
        const auto found = from.find(at);
        if (found == from.end() || mesh.outline.size() > from.size()) {
            break;
        }
        mesh.outline.push_back(found->second);
        at = mesh.quads[index(found->second.quad)][index((found->second.side + 1) % 4)];
    } while (at != start);
}

// Leaves out vertices that no quad has: of lines that were dropped, of the half that was mirrored.
void drop_unused_vertices(Mesh& mesh) {
    std::vector<int> number(mesh.vertices.size(), -1);
    for (const auto& quad : mesh.quads) {
        for (const int v : quad) {
            number[index(v)] = 0;
        }
    }
    std::vector<Vector2d> kept;
    for (std::size_t v = 0; v < number.size(); ++v) {
        if (number[v] == 0) {
            number[v] = static_cast<int>(kept.size());
            kept.push_back(mesh.vertices[v]);
        }
    }
    mesh.vertices = std::move(kept);
    for (auto& edge : mesh.edges) { // the order of the numbers is kept: lower stays first
        edge = {number[index(edge[0])], number[index(edge[1])]};
    }
    for (auto& quad : mesh.quads) {
        for (int& v : quad) {
            v = number[index(v)];
        }
    }
}

} // namespace

BlockGrid coons_grid(const PlanarMap& map, const BlockMesh& blocks, int block) {
    const Block& b = blocks.blocks[index(block)];
    BlockGrid grid;
    grid.columns = blocks.edges[index(b.edges[0])].divisions;
    grid.rows = blocks.edges[index(b.edges[1])].divisions;
    grid.points.assign(index((grid.columns + 1) * (grid.rows + 1)), Vector2d::Zero());
    if (grid.columns == 1 || grid.rows == 1) {
        return grid; // no inner points
    }
    std::vector<Points> edge_points(blocks.edges.size());
    for (const int e : b.edges) {
        edge_points[index(e)] =
            points_on(map, blocks, e, fine_shares(blocks.edges[index(e)].divisions, 1));
    }
    const BlockSides sides = sides_of(b, edge_points);
    for (int j = 0; j <= grid.rows; ++j) {
        for (int i = 0; i <= grid.columns; ++i) {
            grid.points[index(j * (grid.columns + 1) + i)] =
                coons_at(sides, i, j, static_cast<double>(i) / grid.columns,
                         static_cast<double>(j) / grid.rows);
        }
    }
    return grid;
}

Mesh assemble_mesh(const PlanarMap& map, const BlockMesh& blocks,
                   const std::vector<BlockGrid>& grids, int geometry_degree,
                   std::vector<int>* quad_block) {
    Assembler assembler(map, blocks, geometry_degree);
    for (std::size_t k = 0; k < blocks.blocks.size(); ++k) {
        assembler.add_block(blocks.blocks[k], grids[k]);
        if (quad_block != nullptr) {
            quad_block->insert(quad_block->end(), index(grids[k].columns * grids[k].rows),
                               static_cast<int>(k));
        }
    }
    Mesh mesh = assembler.take();
    drop_unused_vertices(mesh);
    find_outline(mesh);
    return mesh;
}

void find_station_lines(Mesh& mesh, const Planform& planform, const std::vector<double>& stations) {
    for (const double x : stations) {
        StationLine line;
        line.x = x;
        double covered = 0;
        for (std::size_t e = 0; e < mesh.edges.size(); ++e) {
            const Vector2d& a = mesh.vertices[index(mesh.edges[e][0])];
            const Vector2d& b = mesh.vertices[index(mesh.edges[e][1])];
            if (std::abs(a.x() - x) < same_line && std::abs(b.x() - x) < same_line &&
                std::abs(a.y() - b.y()) > 10 * std::abs(a.x() - b.x())) {
                covered += std::abs(a.y() - b.y());
                line.edges.push_back(static_cast<int>(e));
            }
        }
        const auto low = [&](int e) {
            return std::min(mesh.vertices[index(mesh.edges[index(e)][0])].y(),
                            mesh.vertices[index(mesh.edges[index(e)][1])].y());
        };
        std::ranges::sort(line.edges, [&](int p, int q) { return low(p) < low(q); });
        constexpr double missing = 2e-4; // [m]
        if (!line.edges.empty() && covered > width_at(planform, x) - missing) {
            mesh.lines.push_back(std::move(line));
        }
    }
}

} // namespace vrid
