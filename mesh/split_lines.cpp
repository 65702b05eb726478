#include "mesh/line_graph.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "mesh/line_stops.hpp"

namespace vrid {

namespace {

class Splitter {
  public:
    Splitter(const Planform& planform, const MeshLines& lines) : lines_(lines) {
        graph_.half = lines.symmetric;
        const OutlineDistance outline(planform);
        add_loop(outline_loop(planform), static_cast<int>(lines.straight.size()), Rank::outline);
        for (std::size_t k = 0; k < lines.parallels.size(); ++k) {
            const ParallelLine& parallel = lines.parallels[k];
            for (Loop& loop : parallel_loops(planform, outline, parallel.distance)) {
                add_loop(std::move(loop), static_cast<int>(lines.straight.size() + 1 + k),
                         parallel.rank);
            }
        }
        for (const StraightLine& line : lines.straight) {
            graph_.names.push_back(line.name);
        }
        graph_.names.emplace_back("outline");
        for (const ParallelLine& parallel : lines.parallels) {
            graph_.names.push_back(parallel.name);
        }
    }

    LineGraph graph() {
        stops_ = line_stops(graph_.loops, lines_);
        for (std::size_t k = 0; k < graph_.loops.size(); ++k) {
            sort_loop_stops(k);
        }
        graph_.vertices = std::move(stops_.vertices.points);
        for (std::size_t k = 0; k < graph_.loops.size(); ++k) {
            loop_edges(k);
        }
        for (std::size_t i = 0; i < stops_.straight.size(); ++i) {
            straight_edges(i);
        }
        return std::move(graph_);
    }

  private:
    void add_loop(Loop loop, int name, Rank rank) {
        graph_.loops.push_back(std::move(loop));
        loop_name_.push_back(name);
        loop_rank_.push_back(rank);
    }

    static void sort_stops(std::vector<Stop>& stops) {
        std::ranges::stable_sort(stops, {}, &Stop::s);
        std::vector<Stop> distinct;
        for (const Stop& stop : stops) {
            const bool known = std::ranges::any_of(stops, [&](const Stop& other) {
                return other.vertex == stop.vertex &&
                       std::tuple(!other.corner, other.miss, &other) <
                           std::tuple(!stop.corner, stop.miss, &stop);
            });
            if (!known) {
                distinct.push_back(stop);
            }
        }
        stops = std::move(distinct);
    }

    void sort_loop_stops(std::size_t k) {
        std::vector<Stop>& stops = stops_.on_loops[k];
        const Loop& loop = graph_.loops[k];
        for (Stop& stop : stops) { // lines that meet there nearly
            const Vector2d& vertex = stops_.vertices.points[static_cast<std::size_t>(stop.vertex)];
            stop.miss = (loop.point(stop.s) - vertex).norm();
        }
        sort_stops(stops);
        while (stops.size() < 2) { // a loop needs two edges at least
            const double s = stops.empty() ? 0 : stops.front().s + loop.length() / 2;
            stops.push_back({std::fmod(s, loop.length()), stops_.vertices.at(loop.point(s))});
            sort_stops(stops);
        }
    }

    void loop_edges(std::size_t k) {
        const std::vector<Stop>& stops = stops_.on_loops[k];
        const Loop& loop = graph_.loops[k];
        for (std::size_t j = 0; j < stops.size(); ++j) {
            const bool wraps = j + 1 == stops.size();
            const Stop& next = stops[wraps ? 0 : j + 1];
            GraphEdge edge;
            edge.a = stops[j].vertex;
            edge.b = next.vertex;
            edge.loop = static_cast<int>(k);
            edge.from = stops[j].s;
            edge.to = next.s + (wraps ? loop.length() : 0);
            edge.line = loop_name_[k];
            edge.rank = loop_rank_[k];
            edge.boundary = k == 0;
            if (inside_half(point_on(graph_, edge, 0.5))) {
                graph_.edges.push_back(edge);
                by_ends_[std::minmax(edge.a, edge.b)].push_back(graph_.edges.size() - 1);
            }
        }
    }

    [[nodiscard]] bool inside_half(const Vector2d& p) const {
        return !graph_.half || p.y() > -on_line;
    }

    [[nodiscard]] bool inside_outline(const Vector2d& p) const {
        const std::vector<Loop::Sample>& samples = graph_.loops[0].samples();
        bool inside = false;
        for (std::size_t j = 0; j + 1 < samples.size(); ++j) {
            const Vector2d& a = samples[j].point;
            const Vector2d& b = samples[j + 1].point;
            if ((a.y() > p.y()) != (b.y() > p.y()) &&
                p.x() < a.x() + (p.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x())) {
                inside = !inside;
            }
        }
        return inside;
    }

    void straight_edges(std::size_t i) {
        std::vector<Stop>& stops = stops_.on_straight[i];
        sort_stops(stops);
        const StraightLine& line = stops_.straight[i];
        for (std::size_t j = 0; j + 1 < stops.size(); ++j) {
            GraphEdge edge;
            edge.a = stops[j].vertex;
            edge.b = stops[j + 1].vertex;
            edge.from = stops[j].s;
            edge.to = stops[j + 1].s;
            edge.line = i < lines_.straight.size() ? static_cast<int>(i) : -1;
            edge.rank = line.rank;
            const Vector2d middle = point_on(graph_, edge, 0.5);
            const bool on_axis =
                graph_.half && std::abs(middle.y()) <= on_line && line.a.y() == line.b.y();
            if (!inside_half(middle) || !inside_outline(middle)) {
                continue;
            }
            if (on_axis) { // the region lies at y > 0, on the left of +x
                edge.boundary = true;
                edge.rank = Rank::outline;
            }
            put_unless_there(edge, middle);
        }
    }

    void put_unless_there(const GraphEdge& edge, const Vector2d& middle) {
        for (const std::size_t other : by_ends_[std::minmax(edge.a, edge.b)]) {
            GraphEdge& there = graph_.edges[other];
            if ((point_on(graph_, there, 0.5) - middle).norm() < 2 * same_vertex) {
                if (there.loop < 0 && edge.rank > there.rank) {
                    there = edge;
                }
                return;
            }
        }
        graph_.edges.push_back(edge);
        by_ends_[std::minmax(edge.a, edge.b)].push_back(graph_.edges.size() - 1);
    }

    const MeshLines& lines_;
    LineGraph graph_;
    LineStops stops_;
    std::vector<int> loop_name_;
    std::vector<Rank> loop_rank_;
    std::map<std::pair<int, int>, std::vector<std::size_t>> by_ends_;
};

// Whether an edge goes with what was omitted, which may be a part of it between two cuts: then all
// of it goes, and the omission grows to what it has come to.
bool is_omitted(std::vector<Omission>& omitted, const GraphEdge& edge) {
    const auto found = std::ranges::find_if(omitted, [&](const Omission& o) {
        const double shared = std::min(edge.to, o.to) - std::max(edge.from, o.from);
        return o.line == edge.line && shared > std::min(edge.to - edge.from, o.to - o.from) / 2;
    });
    if (edge.line < 0 || found == omitted.end()) {
        return false;
    }
    found->from = std::min(found->from, edge.from);
    found->to = std::max(found->to, edge.to);
    return true;
}

} // namespace

LineGraph split_lines(const Planform& planform, const MeshLines& lines,
                      std::vector<Omission>& omitted) {
    LineGraph graph = Splitter(planform, lines).graph();
    std::erase_if(graph.edges, [&](const GraphEdge& edge) { return is_omitted(omitted, edge); });
    drop_grazing_lines(graph, omitted);
    return graph;
}

} // namespace vrid
