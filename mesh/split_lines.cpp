#include "mesh/line_graph.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/grazing.hpp"
#include "mesh/parallels.hpp"

namespace vrid {

using Eigen::Vector2d;

namespace {

constexpr double same = 5e-5;    // vertices nearer than this are one [m]
constexpr double on_line = 2e-5; // a point this near to a line is on it [m]

double cross(const Vector2d& a, const Vector2d& b) {
    return a.x() * b.y() - a.y() * b.x();
}

struct Stop {
    double s;
    int vertex;
    bool corner = false; // of a loop: its s is exact and wins over others of the same vertex
};

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
        add_crossing_for_lonely_loops();
        straight_stops_.resize(straight_.size());
        corners();
        for (std::size_t i = 0; i < straight_.size(); ++i) {
            for (std::size_t k = 0; k < graph_.loops.size(); ++k) {
                cross_loop(i, k);
            }
        }
        for (std::size_t i = 0; i < straight_.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                cross_straight(i, k);
            }
        }
        ends_on_loops();
        vertices_on_straight();
        for (std::size_t k = 0; k < graph_.loops.size(); ++k) {
            loop_edges(k);
        }
        for (std::size_t i = 0; i < straight_.size(); ++i) {
            straight_edges(i);
        }
        return std::move(graph_);
    }

  private:
    void add_loop(Loop loop, int name, Rank rank) {
        graph_.loops.push_back(std::move(loop));
        loop_name_.push_back(name);
        loop_rank_.push_back(rank);
        loop_stops_.emplace_back();
    }

    // Without a crossing a loop would float in a face with a hole.
    void add_crossing_for_lonely_loops() {
        straight_ = lines_.straight;
        for (const Loop& loop : graph_.loops) {
            Vector2d low = loop.samples().front().point;
            Vector2d high = low;
            for (const Loop::Sample& sample : loop.samples()) {
                low = low.cwiseMin(sample.point);
                high = high.cwiseMax(sample.point);
            }
            const bool crossed =
                std::any_of(straight_.begin(), straight_.end(), [&](const StraightLine& line) {
                    const bool level =
                        line.a.y() == line.b.y() && line.a.x() <= low.x() && line.b.x() >= high.x();
                    return level && line.a.y() > low.y() + 1e-3 && line.a.y() < high.y() - 1e-3;
                });
            const bool station =
                std::any_of(straight_.begin(), straight_.end(), [&](const StraightLine& line) {
                    return line.a.x() == line.b.x() && line.a.x() > low.x() + 1e-3 &&
                           line.a.x() < high.x() - 1e-3 && line.rank >= Rank::smooth &&
                           line.a.y() <= low.y() && line.b.y() >= high.y();
                });
            if (!crossed && !station) {
                const double y = (low.y() + high.y()) / 2;
                const Vector2d margin(1, 0);
                straight_.push_back({Vector2d(low.x(), y) - margin, Vector2d(high.x(), y) + margin,
                                     Rank::axis, "middle line"});
                straight_.back().rank = Rank::axis;
            }
        }
    }

    int vertex(const Vector2d& p) {
        const auto cell = [](double v) { return static_cast<long>(std::floor(v / (4 * same))); };
        for (long i = cell(p.x() - same); i <= cell(p.x() + same); ++i) {
            for (long k = cell(p.y() - same); k <= cell(p.y() + same); ++k) {
                const auto found = grid_.find({i, k});
                if (found == grid_.end()) {
                    continue;
                }
                for (const int v : found->second) {
                    if ((graph_.vertices[static_cast<std::size_t>(v)] - p).norm() < same) {
                        return v;
                    }
                }
            }
        }
        const int added = static_cast<int>(graph_.vertices.size());
        graph_.vertices.push_back(p);
        grid_[{cell(p.x()), cell(p.y())}].push_back(added);
        return added;
    }

    void corners() {
        for (std::size_t k = 0; k < graph_.loops.size(); ++k) {
            for (const double s : graph_.loops[k].corners()) {
                loop_stops_[k].push_back({s, vertex(graph_.loops[k].point(s)), true});
            }
        }
    }

    void cross_loop(std::size_t i, std::size_t k) {
        const StraightLine& line = straight_[i];
        const Vector2d along = (line.b - line.a).normalized();
        const double length = (line.b - line.a).norm();
        const std::vector<Loop::Sample>& samples = graph_.loops[k].samples();
        const auto side = [&](const Vector2d& p) { return cross(along, p - line.a); };
        const std::size_t n = samples.size() - 1;
        std::size_t first = 0;
        while (first < n && std::abs(side(samples[first].point)) <= on_line) {
            ++first;
        }
        double last = first < n ? side(samples[first].point) : 0;
        double last_s = first < n ? samples[first].s : 0;
        for (std::size_t step = 1; step <= n && first < n; ++step) {
            const std::size_t at = (first + step) % n;
            const double f = side(samples[at].point);
            if (std::abs(f) <= on_line) {
                continue;
            }
            const double s = samples[at].s + (first + step >= n ? graph_.loops[k].length() : 0);
            if ((f > 0) != (last > 0)) {
                meet_loop(i, k, root(graph_.loops[k], side, {last_s, s}, {last, f}), length);
            }
            last = f;
            last_s = s;
        }
    }

    // Regula falsi, Illinois variant.
    template <typename F> static double root(const Loop& loop, const F& side, Range s, Range f) {
        double middle = s[0];
        for (int step = 0; step < 60 && s[1] - s[0] > 1e-13; ++step) {
            middle = (s[0] * f[1] - s[1] * f[0]) / (f[1] - f[0]);
            const double value = side(loop.point(middle));
            if (std::abs(value) < 1e-14) {
                break;
            }
            if ((value > 0) == (f[1] > 0)) {
                s[1] = middle;
                f[1] = value;
                f[0] /= 2;
            } else {
                s[0] = middle;
                f[0] = value;
                f[1] /= 2;
            }
        }
        return middle;
    }

    void meet_loop(std::size_t i, std::size_t k, double s, double length) {
        const StraightLine& line = straight_[i];
        const Vector2d along = (line.b - line.a) / length;
        Vector2d p = graph_.loops[k].point(s);
        const double at = (p - line.a).dot(along);
        if (at < -on_line || at > length + on_line) {
            return;
        }
        p = line.a + at * along; // exactly on a station
        if (line.a.x() == line.b.x()) {
            p.x() = line.a.x();
        }
        if (line.a.y() == line.b.y()) {
            p.y() = line.a.y();
        }
        const int v = vertex(p);
        straight_stops_[i].push_back({at, v});
        loop_stops_[k].push_back({std::fmod(s, graph_.loops[k].length()), v});
    }

    void cross_straight(std::size_t i, std::size_t k) {
        const StraightLine& p = straight_[i];
        const StraightLine& q = straight_[k];
        const Vector2d u = (p.b - p.a).normalized();
        const Vector2d v = (q.b - q.a).normalized();
        const double sine = cross(u, v);
        if (std::abs(sine) < 1e-6) {
            return; // ends that lie on the other are found later
        }
        const double s = cross(q.a - p.a, v) / sine;
        const double t = cross(q.a - p.a, u) / sine;
        if (s < -on_line || s > (p.b - p.a).norm() + on_line || t < -on_line ||
            t > (q.b - q.a).norm() + on_line) {
            return;
        }
        Vector2d point = p.a + s * u;
        for (const StraightLine* line : {&p, &q}) {
            if (line->a.x() == line->b.x()) {
                point.x() = line->a.x();
            }
            if (line->a.y() == line->b.y()) {
                point.y() = line->a.y();
            }
        }
        const int at = vertex(point);
        straight_stops_[i].push_back({s, at});
        straight_stops_[k].push_back({t, at});
    }

    void ends_on_loops() {
        for (const StraightLine& line : straight_) {
            for (const Vector2d& end : {line.a, line.b}) {
                for (std::size_t k = 0; k < graph_.loops.size(); ++k) {
                    const auto& samples = graph_.loops[k].samples();
                    for (std::size_t j = 0; j + 1 < samples.size(); ++j) {
                        const Vector2d run = samples[j + 1].point - samples[j].point;
                        const double t = std::clamp(
                            (end - samples[j].point).dot(run) / run.squaredNorm(), 0., 1.);
                        if ((samples[j].point + t * run - end).norm() < on_line) {
                            const double s = samples[j].s + t * (samples[j + 1].s - samples[j].s);
                            loop_stops_[k].push_back(
                                {std::fmod(s, graph_.loops[k].length()), vertex(end)});
                        }
                    }
                }
            }
        }
    }

    void vertices_on_straight() {
        for (const StraightLine& line : straight_) {
            vertex(line.a);
            vertex(line.b);
        }
        for (std::size_t i = 0; i < straight_.size(); ++i) {
            const StraightLine& line = straight_[i];
            const double length = (line.b - line.a).norm();
            const Vector2d along = (line.b - line.a) / length;
            for (std::size_t v = 0; v < graph_.vertices.size(); ++v) {
                const Vector2d d = graph_.vertices[v] - line.a;
                const double s = d.dot(along);
                if (s > -same && s < length + same && std::abs(cross(along, d)) < on_line) {
                    straight_stops_[i].push_back({s, static_cast<int>(v)});
                }
            }
        }
    }

    static void sort_stops(std::vector<Stop>& stops) {
        std::stable_sort(stops.begin(), stops.end(),
                         [](const Stop& p, const Stop& q) { return p.s < q.s; });
        std::vector<Stop> distinct;
        for (const Stop& stop : stops) {
            const bool known = std::any_of(stops.begin(), stops.end(), [&](const Stop& other) {
                return other.vertex == stop.vertex &&
                       (other.corner > stop.corner ||
                        (other.corner == stop.corner && &other < &stop));
            });
            if (!known) {
                distinct.push_back(stop);
            }
        }
        stops = std::move(distinct);
    }

    void loop_edges(std::size_t k) {
        std::vector<Stop>& stops = loop_stops_[k];
        sort_stops(stops);
        const Loop& loop = graph_.loops[k];
        while (stops.size() < 2) { // a loop needs two edges at least
            const double s = stops.empty() ? 0 : stops.front().s + loop.length() / 2;
            stops.push_back({std::fmod(s, loop.length()), vertex(loop.point(s))});
            sort_stops(stops);
        }
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
        std::vector<Stop>& stops = straight_stops_[i];
        sort_stops(stops);
        const StraightLine& line = straight_[i];
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
            if ((point_on(graph_, there, 0.5) - middle).norm() < 2 * same) {
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
    std::vector<StraightLine> straight_;
    std::vector<int> loop_name_;
    std::vector<Rank> loop_rank_;
    std::vector<std::vector<Stop>> loop_stops_, straight_stops_;
    std::map<std::pair<long, long>, std::vector<int>> grid_;
    std::map<std::pair<int, int>, std::vector<std::size_t>> by_ends_;
};

bool is_omitted(const std::vector<Omission>& omitted, const GraphEdge& edge) {
    const double middle = (edge.from + edge.to) / 2;
    return edge.line >= 0 && std::any_of(omitted.begin(), omitted.end(), [&](const Omission& o) {
               return o.line == edge.line && middle > o.from && middle < o.to;
           });
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
