#include "mesh/line_graph.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vrid {

namespace {

// Takes edges out of a graph: those that graze others, those that end nowhere.
class Tidier {
  public:
    Tidier(LineGraph& graph, std::vector<Omission>& omitted)
        : graph_(graph), omitted_(omitted), gone_(graph.edges.size(), false),
          leaving_(graph.vertices.size()) {
        for (std::size_t e = 0; e < graph.edges.size(); ++e) {
            for (const bool at_b : {false, true}) {
                const Vector2d d = direction_at(graph, graph.edges[e], at_b) * (at_b ? -1 : 1);
                const int v = at_b ? graph.edges[e].b : graph.edges[e].a;
                at(v).push_back({std::atan2(d.y(), d.x()), e, at_b});
            }
        }
        for (auto& leaving : leaving_) {
            std::ranges::stable_sort(leaving, {}, &Leaving::angle);
        }
    }

    void run() {
        for (const auto& leaving : leaving_) {
            while (drop_grazing(leaving)) {
            }
        }
        for (bool again = true; again;) {
            again = false;
            for (auto& leaving : leaving_) {
                if (leaving.size() == 1) {
                    drop(leaving.front().edge);
                    again = true;
                }
            }
        }
        for (auto& leaving : leaving_) {
            join_through(leaving);
        }
        std::size_t e = 0;
        std::erase_if(graph_.edges, [&](const GraphEdge&) { return gone_[e++]; });
    }

  private:
    // An end of an edge at a vertex, by the angle at which it leaves.
    struct Leaving {
        double angle;
        std::size_t edge;
        bool at_b;
    };

    std::vector<Leaving>& at(int v) { return leaving_[static_cast<std::size_t>(v)]; }

    static double smallest_angle(Rank rank) {
        constexpr double degree = std::numbers::pi / 180;
        return (rank < Rank::foot ? 25 : 8) * degree;
    }

    bool drop_grazing(const std::vector<Leaving>& leaving) {
        const std::size_t n = leaving.size();
        for (std::size_t k = 0; k < n && n > 1; ++k) {
            const Leaving& p = leaving[k];
            const Leaving& q = leaving[(k + 1) % n];
            const double gap = q.angle - p.angle + (k + 1 == n ? 2 * std::numbers::pi : 0);
            const Rank a = graph_.edges[p.edge].rank;
            const Rank b = graph_.edges[q.edge].rank;
            const Rank lower = std::min(a, b);
            // a case stands on its station: there the band gives way
            const bool band_yields = lower == Rank::wanted_station && std::max(a, b) == Rank::band;
            const bool first = band_yields ? a > b : a < b || (a == b && p.edge > q.edge);
            if (gap < smallest_angle(lower) && lower < Rank::band) {
                drop(first ? p.edge : q.edge);
                return true;
            }
        }
        return false;
    }

    void forget(int v, std::size_t e) {
        std::erase_if(at(v), [&](const Leaving& leaving) { return leaving.edge == e; });
    }

    void drop(std::size_t e) {
        const GraphEdge& edge = graph_.edges[e];
        if (edge.line >= 0) {
            omitted_.push_back({edge.line, edge.from, edge.to});
        }
        gone_[e] = true;
        forget(edge.a, e);
        forget(edge.b, e);
    }

    // A vertex in the middle of a line that nothing else meets is none.
    void join_through(std::vector<Leaving>& leaving) {
        if (leaving.size() != 2 || leaving[0].at_b == leaving[1].at_b) {
            return;
        }
        const std::size_t first = leaving[0].at_b ? leaving[0].edge : leaving[1].edge;
        const std::size_t second = leaving[0].at_b ? leaving[1].edge : leaving[0].edge;
        GraphEdge& p = graph_.edges[first];
        const GraphEdge& q = graph_.edges[second];
        const double turn =
            std::abs(std::abs(leaving[0].angle - leaving[1].angle) - std::numbers::pi);
        if (first == second || p.line != q.line || p.loop != q.loop || turn > 0.02 || p.a == q.b) {
            return;
        }
        p.b = q.b;
        p.to += q.to - q.from;
        gone_[second] = true;
        leaving.clear();
        for (Leaving& end : at(q.b)) {
            end.edge = end.edge == second ? first : end.edge;
        }
    }

    LineGraph& graph_;
    std::vector<Omission>& omitted_;
    std::vector<bool> gone_;
    std::vector<std::vector<Leaving>> leaving_; // per vertex, by rising angle
};

} // namespace

void drop_grazing_lines(LineGraph& graph, std::vector<Omission>& omitted) {
    Tidier(graph, omitted).run();
}

} // namespace vrid
