#pragma once

#include <cmath>

#include "mesh/line_graph.hpp"

namespace vrid::tests {

/// The face between two circles about the origin, from the x axis to `turn` [rad]: four edges along
/// one loop, its outer arc half-edge 2, its inner one half-edge 6.
inline LineGraph ring_sector(double inner, double outer, double turn) {
    const Eigen::Vector2d way(std::cos(turn), std::sin(turn));
    const auto straight = [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        OutlinePiece piece;
        piece.control = {a, a + (b - a) / 3, b - (b - a) / 3, b};
        return piece;
    };
    OutlinePiece out;
    out.radius = outer;
    out.angle_to = turn;
    OutlinePiece in;
    in.radius = inner;
    in.angle_from = turn;
    LineGraph graph;
    graph.vertices = {{inner, 0}, {outer, 0}, outer * way, inner * way};
    graph.loops.emplace_back(
        std::vector<CurveSpan>{{straight(graph.vertices[0], graph.vertices[1]), 0, 1, 0, true},
                               {out, 0, 1, 0, true},
                               {straight(graph.vertices[2], graph.vertices[3]), 0, 1, 0, true},
                               {in, 0, 1, 0, true}});
    std::vector<double> stops = graph.loops[0].corners();
    stops.push_back(graph.loops[0].length());
    for (int k = 0; k < 4; ++k) {
        const auto at = static_cast<std::size_t>(k);
        graph.edges.push_back(
            {k, (k + 1) % 4, 0, stops[at], stops[at + 1], 0, Rank::outline, true});
    }
    graph.names = {"outline"};
    return graph;
}

} // namespace vrid::tests
