#include "mesh/blocks.hpp"

#include <algorithm>

#include "mesh/equal_groups.hpp"
#include "mesh/index.hpp"
#include "mesh/quality.hpp"

namespace vrid {

namespace {

class Builder {
  public:
    explicit Builder(const PlanarMap& map) : map_(map) {
        blocks_.vertices = map.graph().vertices;
        collect_faces();
        mark_splits();
        split_edges();
        for (const std::vector<int>& face : faces_) {
            if (face.size() == 4) {
                divide_four_sided(face);
            } else {
                divide_from_middle(face);
            }
        }
    }

    BlockMesh take() { return std::move(blocks_); }

  private:
    struct Parts {
        std::array<int, 2> edges{-1, -1}; // one, or two if split
        int middle = -1;                  // vertex of the split
    };

    void collect_faces() {
        std::vector<bool> seen(index(map_.half_edges()), false);
        for (int h = 0; h < map_.half_edges(); ++h) {
            if (seen[index(h)] || !map_.has_face(h)) {
                continue;
            }
            faces_.push_back(map_.face(h));
            for (const int k : faces_.back()) {
                seen[index(k)] = true;
            }
        }
    }

    // Sides of faces with other than four corners are split, and whatever is opposite to them.
    void mark_splits() {
        const std::size_t edges = map_.graph().edges.size();
        EqualGroups chords(edges);
        for (const std::vector<int>& face : faces_) {
            if (face.size() == 4) {
                chords.join(face[0] / 2, face[2] / 2);
                chords.join(face[1] / 2, face[3] / 2);
            }
        }
        std::vector<bool> marked(edges, false);
        for (const std::vector<int>& face : faces_) {
            for (const int h : face) {
                if (face.size() != 4) {
                    marked[index(chords.find(h / 2))] = true;
                }
            }
        }
        split_.resize(edges);
        for (std::size_t e = 0; e < edges; ++e) {
            split_[e] = marked[index(chords.find(static_cast<int>(e)))];
        }
    }

    int add_vertex(const Vector2d& p) {
        blocks_.vertices.push_back(p);
        return static_cast<int>(blocks_.vertices.size()) - 1;
    }
    int add_edge(const BlockEdge& edge) {
        blocks_.edges.push_back(edge);
        return static_cast<int>(blocks_.edges.size()) - 1;
    }
    int add_straight(int a, int b) {
        BlockEdge edge;
        edge.a = a;
        edge.b = b;
        return add_edge(edge);
    }

    void split_edges() {
        parts_.resize(split_.size());
        for (std::size_t e = 0; e < split_.size(); ++e) {
            const GraphEdge& line = map_.graph().edges[e];
            BlockEdge edge;
            edge.a = line.a;
            edge.b = line.b;
            edge.line = static_cast<int>(2 * e);
            edge.boundary = line.boundary && line.loop >= 0;
            if (!split_[e]) {
                parts_[e].edges[0] = add_edge(edge);
                continue;
            }
            parts_[e].middle = add_vertex(map_.point(edge.line, 0.5));
            edge.b = parts_[e].middle;
            edge.to = 0.5;
            parts_[e].edges[0] = add_edge(edge);
            edge.a = parts_[e].middle;
            edge.b = line.b;
            edge.from = 0.5;
            edge.to = 1;
            parts_[e].edges[1] = add_edge(edge);
        }
    }

    // Part 0 or 1 of a split side (0 of an unsplit one), in the direction of the half-edge.
    [[nodiscard]] int part(int h, int k) const {
        const Parts& parts = parts_[index(h / 2)];
        return parts.middle < 0 ? parts.edges[0] : parts.edges[index(h % 2 == 0 ? k : 1 - k)];
    }
    [[nodiscard]] int middle(int h) const { return parts_[index(h / 2)].middle; }

    void add_block(int half_edge, const std::array<int, 4>& edges, int first_vertex) {
        Block block;
        block.half_edge = half_edge;
        int at = first_vertex;
        for (std::size_t k = 0; k < 4; ++k) {
            const BlockEdge& edge = blocks_.edges[index(edges[k])];
            block.vertices[k] = at;
            block.edges[k] = edges[k];
            block.backwards[k] = edge.a != at;
            at = edge.a == at ? edge.b : edge.a;
        }
        blocks_.blocks.push_back(block);
    }

    // Line from the middle of side `from` to that of the opposite one: half-way between the two
    // other sides, of which `along` runs with it and `against` the other way.
    int add_between(int from, int to, int along, int against, double start, double end) {
        BlockEdge edge;
        edge.a = from;
        edge.b = to;
        edge.line = along;
        edge.blend_with = against ^ 1;
        edge.from = start;
        edge.to = end;
        return add_edge(edge);
    }

    [[nodiscard]] Vector2d middle_of(const std::vector<int>& f) const {
        CoonsSides sides;
        sides.bottom = map_.point(f[0], 0.5);
        sides.right = map_.point(f[1], 0.5);
        sides.top = map_.point(f[2], 0.5);
        sides.left = map_.point(f[3], 0.5);
        for (std::size_t k = 0; k < 4; ++k) {
            sides.corners[k] = map_.point(f[k], 0);
        }
        return coons(sides, 0.5, 0.5);
    }

    void divide_four_sided(const std::vector<int>& f) {
        const bool across = middle(f[0]) >= 0;
        const bool along = middle(f[1]) >= 0;
        const int v0 = map_.origin(f[0]);
        if (!across && !along) {
            add_block(f[0], {part(f[0], 0), part(f[1], 0), part(f[2], 0), part(f[3], 0)}, v0);
        } else if (across && !along) {
            const int m = add_between(middle(f[0]), middle(f[2]), f[1], f[3], 0, 1);
            add_block(f[0], {part(f[0], 0), m, part(f[2], 1), part(f[3], 0)}, v0);
            add_block(f[0], {part(f[0], 1), part(f[1], 0), part(f[2], 0), m}, middle(f[0]));
        } else if (!across) {
            const int m = add_between(middle(f[3]), middle(f[1]), f[0], f[2], 0, 1);
            add_block(f[0], {part(f[0], 0), part(f[1], 0), m, part(f[3], 1)}, v0);
            add_block(f[0], {m, part(f[1], 1), part(f[2], 0), part(f[3], 0)}, middle(f[3]));
        } else {
            const int c = add_vertex(middle_of(f));
            const int s0 = add_between(middle(f[0]), c, f[1], f[3], 0, 0.5);
            const int s2 = add_between(c, middle(f[2]), f[1], f[3], 0.5, 1);
            const int s3 = add_between(middle(f[3]), c, f[0], f[2], 0, 0.5);
            const int s1 = add_between(c, middle(f[1]), f[0], f[2], 0.5, 1);
            add_block(f[0], {part(f[0], 0), s0, s3, part(f[3], 1)}, v0);
            add_block(f[0], {part(f[0], 1), part(f[1], 0), s1, s0}, middle(f[0]));
            add_block(f[0], {s1, part(f[1], 1), part(f[2], 0), s2}, c);
            add_block(f[0], {s3, s2, part(f[2], 1), part(f[3], 0)}, middle(f[3]));
        }
    }

    // The point from which the lines to the middles of the sides make the best quads.
    [[nodiscard]] Vector2d best_middle(const std::vector<int>& f) const {
        const std::size_t n = f.size();
        std::vector<Vector2d> corner;
        std::vector<Vector2d> side;
        Vector2d best = Vector2d::Zero();
        double size = 0;
        for (const int h : f) {
            corner.push_back(map_.point(h, 0));
            side.push_back(map_.point(h, 0.5));
            best += side.back() / static_cast<double>(n);
        }
        for (const Vector2d& p : side) {
            size = std::max(size, (p - best).norm());
        }
        const auto worst = [&](const Vector2d& c) {
            double low = 2;
            for (std::size_t k = 0; k < n; ++k) {
                low = std::min(low, smallest_sine({corner[k], side[k], c, side[(k + n - 1) % n]}));
            }
            return low;
        };
        double score = worst(best);
        for (double step = size / 4; step > size / 200;) {
            bool better = false;
            for (const Vector2d& way :
                 {Vector2d(1, 0), Vector2d(-1, 0), Vector2d(0, 1), Vector2d(0, -1)}) {
                const Vector2d next = best + step * way;
                const double value = worst(next);
                if (value > score + 1e-9) {
                    score = value;
                    best = next;
                    better = true;
                }
            }
            step = better ? step : step / 2;
        }
        return best;
    }

    void divide_from_middle(const std::vector<int>& f) {
        const std::size_t n = f.size();
        const int c = add_vertex(best_middle(f));
        std::vector<int> spoke;
        spoke.reserve(n);
        for (const int h : f) {
            spoke.push_back(add_straight(middle(h), c));
        }
        for (std::size_t k = 0; k < n; ++k) {
            const std::size_t before = (k + n - 1) % n;
            add_block(f[0], {part(f[k], 0), spoke[k], spoke[before], part(f[before], 1)},
                      map_.origin(f[k]));
        }
    }

    const PlanarMap& map_;
    BlockMesh blocks_;
    std::vector<std::vector<int>> faces_;
    std::vector<bool> split_;
    std::vector<Parts> parts_;
};

// Adds the mirror image in y = 0 of everything that is not on it.
void complete_half(const PlanarMap& map, BlockMesh& blocks) {
    std::vector<bool> edge_on(blocks.edges.size(), false);
    std::vector<bool> vertex_on(blocks.vertices.size(), false);
    for (std::size_t e = 0; e < blocks.edges.size(); ++e) {
        const BlockEdge& edge = blocks.edges[e];
        if (edge.line >= 0 && edge.blend_with < 0 && map.edge(edge.line).boundary &&
            map.edge(edge.line).loop < 0) {
            edge_on[e] = true;
            for (const int v : {edge.a, edge.b}) {
                vertex_on[index(v)] = true;
                blocks.vertices[index(v)].y() = 0;
            }
        }
    }
    std::vector<int> vertex(blocks.vertices.size());
    for (std::size_t v = 0; v < vertex.size(); ++v) {
        vertex[v] = static_cast<int>(v);
        if (!vertex_on[v]) {
            vertex[v] = static_cast<int>(blocks.vertices.size());
            blocks.vertices.emplace_back(blocks.vertices[v].x(), -blocks.vertices[v].y());
        }
    }
    std::vector<int> edge(edge_on.size());
    for (std::size_t e = 0; e < edge.size(); ++e) {
        edge[e] = static_cast<int>(e);
        if (!edge_on[e]) {
            BlockEdge other = blocks.edges[e];
            other.a = vertex[index(other.a)];
            other.b = vertex[index(other.b)];
            other.mirrored = true;
            edge[e] = static_cast<int>(blocks.edges.size());
            blocks.edges.push_back(other);
        }
    }
    const std::size_t count = blocks.blocks.size();
    blocks.half = static_cast<int>(count);
    for (std::size_t k = 0; k < count; ++k) {
        const Block& block = blocks.blocks[k];
        Block other = block;
        for (std::size_t i = 0; i < 4; ++i) {
            other.vertices[i] = vertex[index(block.vertices[(4 - i) % 4])];
            other.edges[i] = edge[index(block.edges[3 - i])];
            other.backwards[i] = !block.backwards[3 - i];
        }
        blocks.blocks.push_back(other);
    }
}

} // namespace

BlockMesh make_blocks(const PlanarMap& map, double max_size) {
    BlockMesh blocks = Builder(map).take();
    if (map.graph().half) {
        complete_half(map, blocks);
    }
    set_divisions(map, blocks, max_size);
    return blocks;
}

} // namespace vrid
