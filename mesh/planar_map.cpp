#include "mesh/planar_map.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "mesh/board/cross.hpp"
#include "mesh/equal_groups.hpp"

namespace vrid {

namespace {

// The connected part that each vertex belongs to.
std::vector<int> components(const LineGraph& graph) {
    EqualGroups groups(graph.vertices.size());
    for (const GraphEdge& edge : graph.edges) {
        groups.join(edge.a, edge.b);
    }
    std::vector<int> part;
    for (std::size_t v = 0; v < graph.vertices.size(); ++v) {
        part.push_back(groups.find(static_cast<int>(v)));
    }
    return part;
}

struct Hit {
    double reach = std::numeric_limits<double>::infinity();
    std::size_t edge = 0;
    double u = 0;
};

// Splits edge e of the graph at share u; the new vertex.
int split_edge(LineGraph& graph, std::size_t e, double u) {
    const int v = static_cast<int>(graph.vertices.size());
    graph.vertices.push_back(point_on(graph, graph.edges[e], u));
    GraphEdge rest = graph.edges[e];
    GraphEdge& edge = graph.edges[e];
    rest.a = edge.b = v;
    rest.from = edge.to = edge.from + u * (edge.to - edge.from);
    graph.edges.push_back(rest);
    return v;
}

// The first edge of another part that a ray along +x or -x meets.
Hit shoot(const LineGraph& graph, const std::vector<int>& part, int from, double way) {
    const Vector2d& p = graph.vertices[static_cast<std::size_t>(from)];
    Hit hit;
    for (std::size_t e = 0; e < graph.edges.size(); ++e) {
        const GraphEdge& edge = graph.edges[e];
        if (part[static_cast<std::size_t>(edge.a)] == part[static_cast<std::size_t>(from)]) {
            continue;
        }
        const int pieces = edge.loop < 0 ? 1 : 32;
        for (int k = 0; k < pieces; ++k) {
            const Vector2d a = point_on(graph, edge, static_cast<double>(k) / pieces) - p;
            const Vector2d b = point_on(graph, edge, static_cast<double>(k + 1) / pieces) - p;
            if ((a.y() > 0) == (b.y() > 0)) {
                continue;
            }
            const double t = a.y() / (a.y() - b.y());
            const double reach = way * (a.x() + t * (b.x() - a.x()));
            if (reach > 0 && reach < hit.reach) {
                hit = {reach, e, (k + t) / pieces};
            }
        }
    }
    return hit;
}

// Joins parts that float free: from their ends in x, along x.
void join_islands(LineGraph& graph) {
    for (int round = 0; round < 200; ++round) {
        const std::vector<int> part = components(graph);
        int main = -1;
        int island = -1;
        for (const GraphEdge& edge : graph.edges) {
            const int p = part[static_cast<std::size_t>(edge.a)];
            main = edge.boundary && main < 0 ? p : main;
        }
        for (const GraphEdge& edge : graph.edges) {
            const int p = part[static_cast<std::size_t>(edge.a)];
            island = p != main ? p : island;
        }
        if (island < 0) {
            return;
        }
        for (const double way : {1.0, -1.0}) {
            int end = island;
            for (const GraphEdge& edge : graph.edges) {
                for (const int v : {edge.a, edge.b}) {
                    const auto at = static_cast<std::size_t>(v);
                    if (at < part.size() && part[at] == island &&
                        way * graph.vertices[at].x() >
                            way * graph.vertices[static_cast<std::size_t>(end)].x()) {
                        end = v;
                    }
                }
            }
            std::vector<int> parts = part;
            parts.resize(graph.vertices.size(), main);
            const Hit hit = shoot(graph, parts, end, way);
            if (!std::isfinite(hit.reach)) {
                continue;
            }
            GraphEdge bridge;
            bridge.a = end;
            bridge.b = split_edge(graph, hit.edge, hit.u);
            graph.edges.push_back(bridge);
        }
    }
}

} // namespace

PlanarMap::PlanarMap(LineGraph graph) : graph_(std::move(graph)) {
    join_islands(graph_);
    link();
}

void PlanarMap::link() {
    struct Out {
        double angle;
        int half;
    };
    std::vector<std::vector<Out>> outs(graph_.vertices.size());
    for (int h = 0; h < half_edges(); ++h) {
        const Vector2d d = leaving(h);
        outs[static_cast<std::size_t>(origin(h))].push_back({std::atan2(d.y(), d.x()), h});
    }
    next_.assign(static_cast<std::size_t>(half_edges()), -1);
    previous_ = next_;
    for (auto& at : outs) {
        std::ranges::stable_sort(at, {}, &Out::angle);
        for (std::size_t k = 0; k < at.size(); ++k) {
            // arriving against `half`, the face on the left leaves by the next edge clockwise
            const int arriving = at[k].half ^ 1;
            const int leaving = at[(k + at.size() - 1) % at.size()].half;
            next_[static_cast<std::size_t>(arriving)] = leaving;
            previous_[static_cast<std::size_t>(leaving)] = arriving;
        }
    }
}

const GraphEdge& PlanarMap::edge(int h) const {
    return graph_.edges[static_cast<std::size_t>(h / 2)];
}

int PlanarMap::origin(int h) const {
    return h % 2 == 0 ? edge(h).a : edge(h).b;
}

Vector2d PlanarMap::point(int h, double u) const {
    return point_on(graph_, edge(h), h % 2 == 0 ? u : 1 - u);
}

Vector2d PlanarMap::leaving(int h) const {
    return direction_at(graph_, edge(h), h % 2 == 1) * (h % 2 == 0 ? 1 : -1);
}

Vector2d PlanarMap::arriving(int h) const {
    return direction_at(graph_, edge(h), h % 2 == 0) * (h % 2 == 0 ? 1 : -1);
}

double PlanarMap::angle(int h) const {
    const Vector2d out = leaving(h);
    const Vector2d back = -arriving(previous(h));
    const double turn = std::atan2(cross(out, back), out.dot(back));
    return turn < 0 ? turn + 2 * std::numbers::pi : turn;
}

std::vector<int> PlanarMap::face(int h) const {
    std::vector<int> round;
    for (int k = h;;) {
        round.push_back(k);
        k = next(k);
        if (k == h || round.size() > next_.size()) {
            return round;
        }
    }
}

int PlanarMap::split(int h, double u) {
    const int e = h / 2;
    split_edge(graph_, static_cast<std::size_t>(e), h % 2 == 0 ? u : 1 - u);
    const int added = static_cast<int>(graph_.edges.size()) - 1;
    next_.resize(next_.size() + 2);
    previous_.resize(previous_.size() + 2);
    const auto join = [&](int p, int q) {
        next_[static_cast<std::size_t>(p)] = q;
        previous_[static_cast<std::size_t>(q)] = p;
    };
    const int forward = 2 * e;
    const int back = 2 * e + 1;
    const int after = next(forward);
    const int before = previous(back);
    join(forward, 2 * added);
    join(2 * added, after == back ? 2 * added + 1 : after);
    join(before == forward ? 2 * added : before, 2 * added + 1);
    join(2 * added + 1, back);
    return h % 2 == 0 ? 2 * added : back;
}

int PlanarMap::cut(int from, int to) {
    GraphEdge edge;
    edge.a = origin(from);
    edge.b = origin(to);
    graph_.edges.push_back(edge);
    const int there = half_edges() - 2;
    const int back = there + 1;
    const int before_from = previous(from);
    const int before_to = previous(to);
    next_.resize(next_.size() + 2);
    previous_.resize(previous_.size() + 2);
    const auto join = [&](int p, int q) {
        next_[static_cast<std::size_t>(p)] = q;
        previous_[static_cast<std::size_t>(q)] = p;
    };
    join(before_from, there);
    join(there, to);
    join(before_to, back);
    join(back, from);
    return there;
}

} // namespace vrid
