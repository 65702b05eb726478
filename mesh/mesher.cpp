#include "mesh/mesher.hpp"

#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <optional>
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

constexpr double worst_corner = 0.1; // sine of the smallest corner angle that is accepted
constexpr double worst_inner = 0.03; // the same over all points of a curved quad
constexpr double good_corner = 0.3;  // below this other ways of cutting are tried

std::size_t index(int i) {
    return static_cast<std::size_t>(i);
}

// Gmsh for the time of one mesh: it has global state, and it must not print.
class GmshSession {
  public:
    GmshSession() : lock_(mutex()) {
        gmsh::initialize();
        gmsh::option::setNumber("General.Terminal", 0);
        gmsh::option::setNumber("General.NumThreads", 1);
        gmsh::option::setNumber("General.AbortOnError", 2);
        gmsh::model::add("board");
    }
    ~GmshSession() { gmsh::finalize(); }
    GmshSession(const GmshSession&) = delete;
    GmshSession& operator=(const GmshSession&) = delete;
    GmshSession(GmshSession&&) = delete;
    GmshSession& operator=(GmshSession&&) = delete;

  private:
    static std::mutex& mutex() {
        static std::mutex one;
        return one;
    }
    std::lock_guard<std::mutex> lock_;
};

// Blocks handed to Gmsh as transfinite surfaces: every quad side on a block's edge is a line.
class GmshBlocks {
  public:
    GmshBlocks(const PlanarMap& map, const BlockMesh& blocks) : map_(map), blocks_(blocks) {
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
        const int surface = block + 1;
        gmsh::model::geo::addCurveLoop(loop, surface);
        gmsh::model::geo::addPlaneSurface({surface}, surface);
        gmsh::model::geo::mesh::setTransfiniteSurface(surface, "Left", corners);
        gmsh::model::geo::mesh::setRecombine(2, surface);
    }

    void generate() {
        gmsh::model::geo::synchronize();
        gmsh::model::mesh::generate(2);
        std::vector<std::size_t> tags;
        std::vector<double> coordinates;
        std::vector<double> parameters;
        gmsh::model::mesh::getNodes(tags, coordinates, parameters);
        for (std::size_t k = 0; k < tags.size(); ++k) {
            position_[tags[k]] = {coordinates[3 * k], coordinates[3 * k + 1]};
        }
    }

    // The inner points of a block's grid from Gmsh's mesh of it.
    void read(int block, BlockGrid& grid) const {
        std::vector<int> types;
        std::vector<std::vector<std::size_t>> tags;
        std::vector<std::vector<std::size_t>> nodes;
        gmsh::model::mesh::getElements(types, tags, nodes, 2, block + 1);
        constexpr int four_node_quad = 3;
        const auto quads = static_cast<std::size_t>(grid.columns * grid.rows);
        if (types != std::vector<int>{four_node_quad} || tags[0].size() != quads) {
            throw SolveError("mesh", "Gmsh did not fill a block with quads");
        }
        place(nodes[0], block, grid);
    }

  private:
    struct Side {
        std::vector<int> points, lines; // tags from a to b
    };

    int add_point(const Vector2d& p) {
        gmsh::model::geo::addPoint(p.x(), p.y(), 0, 0, ++points_);
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
            gmsh::model::geo::addLine(side.points[index(i)], side.points[index(i + 1)], ++lines_);
            gmsh::model::geo::mesh::setTransfiniteCurve(lines_, 2);
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
                if (std::find(known.begin(), known.end(), *node) == known.end()) {
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
            std::reverse(tags.begin(), tags.end());
        }
        return tags;
    }

    const PlanarMap& map_;
    const BlockMesh& blocks_;
    std::vector<int> point_; // tag per block vertex
    std::vector<Side> sides_;
    std::map<std::size_t, Vector2d> position_;
    int points_ = 0, lines_ = 0;
};

// Only blocks with inner points are Gmsh's work: the quads of the others are given by their sides.
void fill_with_gmsh(const PlanarMap& map, const BlockMesh& blocks, std::vector<BlockGrid>& grids) {
    std::vector<int> inner;
    for (std::size_t k = 0; k < grids.size(); ++k) {
        if (grids[k].columns > 1 && grids[k].rows > 1) {
            inner.push_back(static_cast<int>(k));
        }
    }
    if (inner.empty()) {
        return;
    }
    try {
        const GmshSession session;
        GmshBlocks surfaces(map, blocks);
        for (const int k : inner) {
            surfaces.add(k);
        }
        surfaces.generate();
        for (const int k : inner) {
            surfaces.read(k, grids[index(k)]);
        }
    } catch (const std::string& message) { // Gmsh throws plain strings
        throw SolveError("mesh", "Gmsh: " + message);
    }
}

std::string place_text(const Vector2d& p) {
    std::ostringstream text;
    text << "x = " << std::round(p.x() * 1e4) / 10 << " mm, y = " << std::round(p.y() * 1e4) / 10
         << " mm";
    return text.str();
}

// What a list of lines, less what was omitted, led to.
struct Attempt {
    PlanarMap map;
    BlockMesh blocks;
    std::vector<BlockGrid> grids;
    Mesh mesh;
    WorstPlace worst{-2, -2, 0, 0};
    int bad_half_edge = -1; // of the face to blame; -1: the mesh is good
    std::string why;
    Vector2d place = Vector2d::Zero();
};

Attempt attempt(const PlanarMap& uncut, const MeshOptions& options, const CutStyle& style) {
    Attempt a{uncut, {}, {}, {}, {}, -1, {}, Vector2d::Zero()};
    if (const auto failure = cut_to_convex(a.map, style)) {
        a.bad_half_edge = failure->half_edge;
        a.why = failure->why;
        a.place = a.map.point(failure->half_edge, 0);
        return a;
    }
    a.blocks = make_blocks(a.map, options.max_size);
    for (std::size_t k = 0; k < a.blocks.blocks.size(); ++k) {
        a.grids.push_back(coons_grid(a.map, a.blocks, static_cast<int>(k)));
    }
    std::vector<int> quad_block;
    a.mesh = assemble_mesh(a.map, a.blocks, a.grids, options.geometry_degree, &quad_block);
    const WorstPlace worst = a.worst = worst_place(a.mesh);
    a.mesh.min_scaled_jacobian = worst.corner_sine;
    const bool corner = worst.corner_sine <= worst_corner;
    if (corner || worst.inner_sine <= worst_inner) {
        const std::size_t quad = index(corner ? worst.corner_quad : worst.inner_quad);
        a.bad_half_edge = a.blocks.blocks[index(quad_block[quad])].half_edge;
        std::ostringstream why;
        why << "a quad has a scaled Jacobian of "
            << (corner ? worst.corner_sine : worst.inner_sine);
        a.why = why.str();
        a.place = a.mesh.geometry[quad].rowwise().mean();
    }
    return a;
}

// The best of several ways of cutting; the first if it is good, for it makes the fewest quads.
Attempt best_attempt(const PlanarMap& uncut, const MeshOptions& options) {
    constexpr std::array<CutStyle, 6> styles{{{},
                                              {0.1, 0.1, 0.15, 0.015, 4},
                                              {0.2, 0.3, 0.05, 0.005, 2},
                                              {-0.1, 0.2, 0.4, 0.03, 1},
                                              {0.5, 0.0, 0.0, 0.002, 1},
                                              {0.0, 0.5, 0.3, 0.0, 3}}};
    const auto quality = [](const Attempt& a) {
        return std::min(a.worst.corner_sine, a.worst.inner_sine * worst_corner / worst_inner);
    };
    Attempt best = attempt(uncut, options, styles[0]);
    for (std::size_t k = 1; k < styles.size() && quality(best) < good_corner; ++k) {
        Attempt other = attempt(uncut, options, styles[k]);
        if (quality(other) > quality(best)) {
            best = std::move(other);
        }
    }
    return best;
}

// The line to give up at a bad face: the least important one at its sides or corners.
std::optional<Omission> least_important(const PlanarMap& map, int half_edge,
                                        const Vector2d& place) {
    std::optional<Omission> found;
    Rank lowest = Rank::band;
    const auto consider = [&](int h) {
        const GraphEdge& edge = map.edge(h);
        if (edge.line >= 0 && !edge.boundary && edge.rank < lowest) {
            lowest = edge.rank;
            found = {edge.line, edge.from, edge.to};
        }
    };
    const std::vector<int> sides = map.face(half_edge);
    for (const int h : sides) {
        consider(h);
    }
    for (std::size_t k = 0; k < sides.size() && lowest == Rank::band; ++k) {
        for (int h = map.previous(sides[k]) ^ 1; h != sides[k]; h = map.previous(h) ^ 1) {
            consider(h);
        }
    }
    double nearest = std::numeric_limits<double>::infinity();
    for (int h = 0; h < map.half_edges() && lowest == Rank::band; h += 2) { // else the nearest
        const GraphEdge& edge = map.edge(h);
        const double distance = (map.point(h, 0.5) - place).norm();
        if (edge.line >= 0 && !edge.boundary && edge.rank < Rank::band && distance < nearest) {
            nearest = distance;
            found = {edge.line, edge.from, edge.to};
        }
    }
    return found;
}

std::vector<std::string> notes_of(const MeshLines& lines, const std::vector<Omission>& omitted) {
    std::map<int, std::vector<Range>> stretches;
    for (const Omission& o : omitted) {
        const bool straight = index(o.line) < lines.straight.size();
        if (straight && lines.straight[index(o.line)].rank >= Rank::foot) {
            stretches[o.line].push_back({o.from, o.to});
        }
    }
    std::vector<std::string> notes;
    for (auto& [line, ranges] : stretches) {
        std::sort(ranges.begin(), ranges.end());
        const StraightLine& straight = lines.straight[index(line)];
        const Vector2d along = (straight.b - straight.a).normalized();
        std::string note = straight.name + " is not followed by the mesh";
        Range whole = ranges.front();
        const auto tell = [&] {
            note += " from " + place_text(straight.a + whole[0] * along) + " to " +
                    place_text(straight.a + whole[1] * along) + ";";
        };
        for (const Range& range : ranges) {
            if (range[0] > whole[1] + 1e-9) {
                tell();
                whole = range;
            }
            whole[1] = std::max(whole[1], range[1]);
        }
        tell();
        note += lines.symmetric ? " likewise at -y: it would make too sharp a quad"
                                : " it would make too sharp a quad";
        notes.push_back(note);
    }
    return notes;
}

} // namespace

Mesh mesh_planform(const Board& board, const MeshOptions& options) {
    const MeshLines lines = collect_lines(board, options);
    std::vector<Omission> omitted;
    constexpr int most_attempts = 40;
    for (int k = 0;; ++k) {
        const PlanarMap uncut(split_lines(board.planform, lines, omitted));
        Attempt a = best_attempt(uncut, options);
        if (a.bad_half_edge < 0) {
            fill_with_gmsh(a.map, a.blocks, a.grids);
            Mesh mesh = assemble_mesh(a.map, a.blocks, a.grids, options.geometry_degree);
            const WorstPlace worst = worst_place(mesh);
            mesh.min_scaled_jacobian = worst.corner_sine;
            if (worst.corner_sine <= worst_corner || worst.inner_sine <= 0) {
                mesh = std::move(a.mesh); // Gmsh moved a point where it does harm
            }
            find_station_lines(mesh, board.planform, lines.stations);
            mesh.notes = notes_of(lines, omitted);
            return mesh;
        }
        const auto line = least_important(a.map, a.bad_half_edge, a.place);
        if (!line || k == most_attempts) {
            throw SolveError("mesh", a.why + " near " + place_text(a.place));
        }
        omitted.push_back(*line);
    }
}

} // namespace vrid
