#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "mesh/blocks.hpp"
#include "mesh/equal_groups.hpp"
#include "mesh/index.hpp"

namespace vrid {

namespace {

int needed_divisions(const PlanarMap& map, const BlockMesh& blocks, int edge, double max_size) {
    constexpr double largest_turn = 40 * std::numbers::pi / 180;
    constexpr double excess = 0.15; // a side this much longer than wanted is not worth two
    std::vector<double> shares;
    constexpr int probes = 8;
    for (int k = 0; k <= probes; ++k) {
        shares.push_back(static_cast<double>(k) / probes);
    }
    const std::vector<Vector2d> p = points_on(map, blocks, edge, shares);
    double length = 0;
    double turn = 0;
    for (std::size_t k = 0; k + 1 < p.size(); ++k) {
        const Vector2d d = p[k + 1] - p[k];
        length += d.norm();
        if (k + 2 < p.size()) {
            const Vector2d e = p[k + 2] - p[k + 1];
            turn += std::abs(std::atan2(d.x() * e.y() - d.y() * e.x(), d.dot(e)));
        }
    }
    turn *= static_cast<double>(probes) / (probes - 1);
    return std::max({1, static_cast<int>(std::ceil(length / max_size - excess)),
                     static_cast<int>(std::ceil(turn / largest_turn - excess))});
}

// Lengths of even steps of u along a curve, and how uneven they are.
struct Steps {
    std::vector<double> length;
    double unevenness = 1; ///< longest by shortest
};

template <typename Curve> Steps steps_of(const Curve& curve, int count) {
    Steps steps;
    Vector2d last = curve(0.0);
    for (int k = 1; k <= count; ++k) {
        const Vector2d next = curve(static_cast<double>(k) / count);
        steps.length.push_back((next - last).norm());
        last = next;
    }
    const auto [least, most] = std::minmax_element(steps.length.begin(), steps.length.end());
    steps.unevenness = *most / std::max(*least, 1e-300);
    return steps;
}

// Where along a curve the shares u of its *length* are, if its parameter runs too unevenly for
// polynomials: beside a jump of the outline's curvature a parallel changes pace several times.
template <typename Curve>
std::vector<double> paced(const Curve& curve, const std::vector<double>& u) {
    constexpr double too_uneven = 4;
    constexpr int fine = 128;
    if (steps_of(curve, 8).unevenness < too_uneven) {
        return u;
    }
    const Steps steps = steps_of(curve, fine);
    const double whole = std::accumulate(steps.length.begin(), steps.length.end(), 0.0);
    std::vector<double> at;
    for (const double share : u) {
        double left = share * whole;
        int k = 0;
        while (k + 1 < fine && left > steps.length[index(k)]) {
            left -= steps.length[index(k++)];
        }
        at.push_back(std::min(1.0, (k + left / steps.length[index(k)]) / fine));
    }
    return at;
}

} // namespace

void set_divisions(const PlanarMap& map, BlockMesh& blocks, double max_size) {
    EqualGroups chords(blocks.edges.size());
    for (const Block& block : blocks.blocks) {
        chords.join(block.edges[0], block.edges[2]);
        chords.join(block.edges[1], block.edges[3]);
    }
    std::vector<int> needed(blocks.edges.size(), 1);
    for (std::size_t e = 0; e < blocks.edges.size(); ++e) {
        int& most = needed[index(chords.find(static_cast<int>(e)))];
        most = std::max(most, needed_divisions(map, blocks, static_cast<int>(e), max_size));
    }
    for (std::size_t e = 0; e < blocks.edges.size(); ++e) {
        blocks.edges[e].divisions = needed[index(chords.find(static_cast<int>(e)))];
    }
}

std::vector<Vector2d> points_on(const PlanarMap& map, const BlockMesh& blocks, int edge,
                                const std::vector<double>& u) {
    const BlockEdge& e = blocks.edges[index(edge)];
    const Vector2d& a = blocks.vertices[index(e.a)];
    const Vector2d& b = blocks.vertices[index(e.b)];
    std::vector<Vector2d> points;
    const auto is_straight = [&](int h) { return h < 0 || map.edge(h).loop < 0; };
    if (is_straight(e.line) && is_straight(e.blend_with)) {
        for (const double share : u) {
            points.emplace_back(a + share * (b - a));
        }
        return points;
    }
    const auto on_line = [&](int h, double t) -> Vector2d {
        const GraphEdge& line = map.edge(h);
        if (line.loop < 0) {
            return map.point(h, t);
        }
        const double share = h % 2 == 0 ? t : 1 - t;
        return map.graph().loops[index(line.loop)].point(line.from + share * (line.to - line.from));
    };
    const auto raw = [&](double share) -> Vector2d {
        const double t = e.from + share * (e.to - e.from);
        Vector2d p = on_line(e.line, t);
        if (e.blend_with >= 0) {
            p = (p + on_line(e.blend_with, t)) / 2;
        }
        return {p.x(), e.mirrored ? -p.y() : p.y()};
    };
    // the vertices may be up to the merging distance off the line: blend that in
    const Vector2d at_a = a - raw(0);
    const Vector2d at_b = b - raw(1);
    const std::vector<double> at = e.blend_with < 0 ? paced(raw, u) : u;
    for (std::size_t k = 0; k < u.size(); ++k) {
        points.emplace_back(raw(at[k]) + (1 - u[k]) * at_a + u[k] * at_b);
    }
    return points;
}

Vector2d coons(const CoonsSides& s, double u, double v) {
    return (1 - v) * s.bottom + v * s.top + (1 - u) * s.left + u * s.right -
           (1 - u) * (1 - v) * s.corners[0] - u * (1 - v) * s.corners[1] - u * v * s.corners[2] -
           (1 - u) * v * s.corners[3];
}

} // namespace vrid
