#include "mesh/line_graph.hpp"

#include <algorithm>

namespace vrid {

Vector2d point_on(const LineGraph& graph, const GraphEdge& edge, double u) {
    const Vector2d& a = graph.vertices[static_cast<std::size_t>(edge.a)];
    const Vector2d& b = graph.vertices[static_cast<std::size_t>(edge.b)];
    if (edge.loop < 0) {
        return a + u * (b - a);
    }
    const Loop& loop = graph.loops[static_cast<std::size_t>(edge.loop)];
    const Vector2d p = loop.point(edge.from + u * (edge.to - edge.from));
    return p + (1 - u) * (a - loop.point(edge.from)) + u * (b - loop.point(edge.to));
}

Vector2d direction_at(const LineGraph& graph, const GraphEdge& edge, bool at_b) {
    if (edge.loop < 0) {
        return (graph.vertices[static_cast<std::size_t>(edge.b)] -
                graph.vertices[static_cast<std::size_t>(edge.a)])
            .normalized();
    }
    const double inward = std::min(1e-7, (edge.to - edge.from) * 1e-3); // not across a corner
    return graph.loops[static_cast<std::size_t>(edge.loop)].direction(at_b ? edge.to - inward
                                                                           : edge.from + inward);
}

} // namespace vrid
