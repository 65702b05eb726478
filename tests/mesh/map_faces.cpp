#include "tests/mesh/map_faces.hpp"

#include <algorithm>

#include "mesh/board/cross.hpp"

namespace vrid::tests {

LineGraph polygon_graph(const std::vector<Eigen::Vector2d>& corners) {
    LineGraph graph;
    graph.vertices = corners;
    graph.names = {"outline"};
    const int count = static_cast<int>(corners.size());
    for (int k = 0; k < count; ++k) {
        GraphEdge& edge = add_edge(graph, k, (k + 1) % count, Rank::outline, 0);
        edge.boundary = true;
    }
    return graph;
}

GraphEdge& add_edge(LineGraph& graph, int a, int b, Rank rank, int line) {
    GraphEdge edge;
    edge.a = a;
    edge.b = b;
    edge.rank = rank;
    edge.line = line;
    edge.to =
        (graph.vertices[static_cast<std::size_t>(b)] - graph.vertices[static_cast<std::size_t>(a)])
            .norm();
    graph.edges.push_back(edge);
    return graph.edges.back();
}

std::vector<int> faces_of(const PlanarMap& map) {
    std::vector<int> faces;
    for (int h = 0; h < map.half_edges(); ++h) {
        const std::vector<int> round = map.face(h);
        if (map.has_face(h) && *std::min_element(round.begin(), round.end()) == h) {
            faces.push_back(h);
        }
    }
    return faces;
}

double corner_area(const PlanarMap& map, int half_edge) {
    double twice = 0;
    for (const int h : map.face(half_edge)) {
        twice += cross(map.point(h, 0), map.point(h, 1));
    }
    return twice / 2;
}

std::vector<double> corner_areas(const PlanarMap& map) {
    std::vector<double> areas;
    for (const int h : faces_of(map)) {
        areas.push_back(corner_area(map, h));
    }
    std::sort(areas.begin(), areas.end());
    return areas;
}

} // namespace vrid::tests
