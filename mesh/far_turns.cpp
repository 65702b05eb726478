#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/block_plan.hpp"
#include "mesh/board/cross.hpp"
#include "mesh/index.hpp"

namespace vrid {

namespace {

constexpr int probes = 64; // along an edge

// How far an edge has turned at even steps of its way, left and right counted alike, and how far to
// the right in all [rad].
struct Turns {
    std::vector<double> up_to{0};
    double right = 0;
};

Turns turns_along(const LineGraph& graph, const GraphEdge& edge) {
    Turns turns;
    Vector2d last = direction_at(graph, edge, false);
    for (int k = 1; k <= probes; ++k) {
        const double s = edge.from + (edge.to - edge.from) * k / probes;
        const Vector2d next = k == probes ? direction_at(graph, edge, true)
                                          : graph.loops[index(edge.loop)].direction(s);
        const double turn = std::atan2(cross(last, next), last.dot(next));
        turns.right += std::max(0.0, -turn);
        turns.up_to.push_back(turns.up_to.back() + std::abs(turn));
        last = next;
    }
    return turns;
}

} // namespace

void split_far_turns(PlanarMap& map) {
    constexpr double degree = std::numbers::pi / 180;
    constexpr double most = 110 * degree; // a tip's quarter with its flare turns by less
    constexpr double most_right = 45 * degree;
    constexpr double wanted = 55 * degree;
    const int edges = map.half_edges() / 2;
    for (int e = 0; e < edges; ++e) {
        if (map.edge(2 * e).loop < 0) {
            continue;
        }
        const Turns turns = turns_along(map.graph(), map.edge(2 * e));
        const double whole = turns.up_to.back();
        if (whole < most && turns.right < most_right) {
            continue;
        }
        const int parts = std::max(2, static_cast<int>(std::ceil(whole / wanted)));
        int rest = 2 * e;
        double before = 0;
        for (int part = 1; part < parts; ++part) {
            const double turn = whole * part / parts;
            const auto above = std::ranges::lower_bound(turns.up_to, turn);
            const double steps = static_cast<double>(above - turns.up_to.begin()) -
                                 (*above - turn) / (*above - *(above - 1));
            rest = map.split(rest, (steps / probes - before) / (1 - before));
            before = steps / probes;
        }
    }
}

} // namespace vrid
