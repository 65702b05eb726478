#include "mesh/block_plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <sstream>

#include "mesh/board/error.hpp"
#include "mesh/index.hpp"

namespace vrid {

namespace {

constexpr double smallest_inner_sine = 0.03; // over all points of a curved quad
constexpr double good_corner_sine = 0.25;    // below this other ways of cutting are tried

std::string place_text(const Vector2d& p) {
    std::ostringstream text;
    text << "x = " << std::round(p.x() * 1e4) / 10 << " mm, y = " << std::round(p.y() * 1e4) / 10
         << " mm";
    return text.str();
}

// What a list of lines, less what was omitted, led to.
struct Attempt {
    PlanarMap map;
    BlockMesh blocks{};
    std::vector<BlockGrid> grids{};
    WorstPlace worst{-2, -2, 0, 0}; // until there is a mesh
    double quads = 0;
    int bad_half_edge = -1; // of the face to blame; -1: the mesh is good
    std::string why{};
    Vector2d place = Vector2d::Zero();

    [[nodiscard]] double quality() const {
        return std::min(worst.corner_sine,
                        worst.inner_sine * smallest_corner_sine / smallest_inner_sine);
    }
};

// Looks at the mesh that the blocks make at a geometry degree.
void judge(Attempt& a, int degree) {
    std::vector<int> quad_block;
    const Mesh mesh = assemble_mesh(a.map, a.blocks, a.grids, degree, &quad_block);
    a.worst = worst_place(mesh);
    a.quads = static_cast<double>(mesh.quads.size());
    a.bad_half_edge = -1;
    if (a.quality() > smallest_corner_sine) {
        return;
    }
    const bool corner = a.worst.corner_sine <= smallest_corner_sine;
    const std::size_t quad = index(corner ? a.worst.corner_quad : a.worst.inner_quad);
    a.bad_half_edge = a.blocks.blocks[index(quad_block[quad])].half_edge;
    a.place = mesh.geometry[quad].rowwise().mean();
    std::ostringstream why;
    why << "a quad has a scaled Jacobian of "
        << (corner ? a.worst.corner_sine : a.worst.inner_sine);
    a.why = why.str();
}

Attempt attempt(const PlanarMap& uncut, const MeshOptions& options, const CutStyle& style) {
    Attempt a{uncut};
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
    constexpr int quick = 2; // shows nearly all faults
    judge(a, std::min(quick, options.geometry_degree));
    return a;
}

// Of two meshes that will do the one with fewer quads for its quality: where borders cross at a
// sharp angle no way of cutting is much better than another, but one makes six times the quads.
bool is_better(const Attempt& a, const Attempt& b) {
    return std::min(a.quality(), b.quality()) > smallest_corner_sine
               ? a.quads / a.quality() < b.quads / b.quality()
               : a.quality() > b.quality();
}

// The best of several ways of cutting; a good one that cuts no more than usual ends the search.
Attempt best_attempt(const PlanarMap& uncut, const MeshOptions& options) {
    constexpr std::array<CutStyle, 6> styles{{{},
                                              {0.1, 0.1, 0.15, 0.015, 4},
                                              {0.2, 0.3, 0.05, 0.005, 2},
                                              {-0.1, 0.2, 0.4, 0.03, 1},
                                              {0.5, 0.0, 0.0, 0.002, 1},
                                              {0.0, 0.5, 0.3, 0.0, 3}}};
    Attempt best = attempt(uncut, options, styles[0]);
    constexpr int usual = 3; // edges by those there were
    const auto enough = [&](const Attempt& a) {
        return a.quality() > good_corner_sine && a.map.half_edges() <= usual * uncut.half_edges();
    };
    for (std::size_t k = 1; k < styles.size() && !enough(best); ++k) {
        Attempt other = attempt(uncut, options, styles[k]);
        if (is_better(other, best)) {
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
    if (lowest == Rank::wanted_station) { // a case stands on it: a band at the face goes first
        for (const int h : sides) {
            const GraphEdge& edge = map.edge(h);
            if (edge.line >= 0 && !edge.boundary && edge.rank == Rank::band) {
                return Omission{edge.line, edge.from, edge.to};
            }
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
    for (std::size_t k = 0; k < lines.parallels.size(); ++k) {
        double length = 0;
        for (const Omission& o : omitted) { // named after the straight lines and the outline
            length += index(o.line) == lines.straight.size() + 1 + k ? o.to - o.from : 0;
        }
        if (length > 0 && lines.parallels[k].rank == Rank::band) {
            notes.push_back(lines.parallels[k].name + " is not followed by the mesh along " +
                            std::to_string(std::lround(length * 1e3)) + " mm" +
                            (lines.symmetric ? ", likewise at -y" : "") +
                            ": it would make too sharp a quad");
        }
    }
    for (auto& [line, ranges] : stretches) {
        std::ranges::sort(ranges);
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
    constexpr std::size_t many = 10; // on seven boards of 11 to 71: 5 of 49 bars too narrow
    if (notes.size() >= many) {
        notes.push_back(
            std::to_string(notes.size()) +
            " borders are not followed everywhere: error bars may be too narrow, by up "
            "to 0.2 % of a number on the boards tried; a solve with shorter quads tells");
    }
    return notes;
}

} // namespace

BlockPlan plan_blocks(const Planform& planform, const MeshLines& lines,
                      const MeshOptions& options) {
    std::vector<Omission> omitted;
    constexpr int most_rounds = 120;
    for (int round = 0;; ++round) {
        PlanarMap uncut(split_lines(planform, lines, omitted));
        split_far_turns(uncut);
        Attempt a = best_attempt(uncut, options);
        if (a.bad_half_edge < 0) {
            judge(a, options.geometry_degree);
        }
        if (a.bad_half_edge < 0) {
            return {std::move(a.map), std::move(a.blocks), std::move(a.grids),
                    notes_of(lines, omitted)};
        }
        const auto line = least_important(a.map, a.bad_half_edge, a.place);
        if (!line || round == most_rounds) {
            throw SolveError("mesh", a.why + " near " + place_text(a.place));
        }
        omitted.push_back(*line);
    }
}

} // namespace vrid
