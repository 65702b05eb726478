#include "mesh/line_stops.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/cross.hpp"

namespace vrid {

namespace {

class Crossings {
  public:
    Crossings(const std::vector<Loop>& loops, const MeshLines& lines)
        : loops_(loops), lines_(lines) {
        stops_.on_loops.resize(loops.size());
    }

    LineStops stops() {
        add_crossing_for_lonely_loops();
        stops_.on_straight.resize(stops_.straight.size());
        corners();
        for (std::size_t i = 0; i < stops_.straight.size(); ++i) {
            for (std::size_t k = 0; k < loops_.size(); ++k) {
                cross_loop(i, k);
            }
        }
        for (std::size_t i = 0; i < stops_.straight.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                cross_straight(i, k);
            }
        }
        ends_on_loops();
        vertices_on_straight();
        return std::move(stops_);
    }

  private:
    // Without a crossing a loop would float in a face with a hole.
    void add_crossing_for_lonely_loops() {
        stops_.straight = lines_.straight;
        for (const Loop& loop : loops_) {
            Vector2d low = loop.samples().front().point;
            Vector2d high = low;
            for (const Loop::Sample& sample : loop.samples()) {
                low = low.cwiseMin(sample.point);
                high = high.cwiseMax(sample.point);
            }
            const bool crossed =
                std::ranges::any_of(stops_.straight, [&](const StraightLine& line) {
                    const bool level =
                        line.a.y() == line.b.y() && line.a.x() <= low.x() && line.b.x() >= high.x();
                    return level && line.a.y() > low.y() + 1e-3 && line.a.y() < high.y() - 1e-3;
                });
            const bool station =
                std::ranges::any_of(stops_.straight, [&](const StraightLine& line) {
                    return line.a.x() == line.b.x() && line.a.x() > low.x() + 1e-3 &&
                           line.a.x() < high.x() - 1e-3 && line.rank >= Rank::smooth &&
                           line.a.y() <= low.y() && line.b.y() >= high.y();
                });
            if (!crossed && !station) {
                const double y = (low.y() + high.y()) / 2;
                const Vector2d margin(1, 0);
                stops_.straight.push_back({Vector2d(low.x(), y) - margin,
                                           Vector2d(high.x(), y) + margin, Rank::axis,
                                           "middle line"});
                stops_.straight.back().rank = Rank::axis;
            }
        }
    }

    void corners() {
        for (std::size_t k = 0; k < loops_.size(); ++k) {
            for (const double s : loops_[k].corners()) {
                stops_.on_loops[k].push_back({s, stops_.vertices.at(loops_[k].point(s)), true});
            }
        }
    }

    void cross_loop(std::size_t i, std::size_t k) {
        const StraightLine& line = stops_.straight[i];
        const Vector2d along = (line.b - line.a).normalized();
        const double length = (line.b - line.a).norm();
        const std::vector<Loop::Sample>& samples = loops_[k].samples();
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
            const double s = samples[at].s + (first + step >= n ? loops_[k].length() : 0);
            if ((f > 0) != (last > 0)) {
                meet_loop(i, k, root(loops_[k], side, {last_s, s}, {last, f}), length);
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
        const StraightLine& line = stops_.straight[i];
        const Vector2d along = (line.b - line.a) / length;
        Vector2d p = loops_[k].point(s);
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
        const int v = stops_.vertices.at(p);
        stops_.on_straight[i].push_back({at, v});
        stops_.on_loops[k].push_back({std::fmod(s, loops_[k].length()), v});
    }

    void cross_straight(std::size_t i, std::size_t k) {
        const StraightLine& p = stops_.straight[i];
        const StraightLine& q = stops_.straight[k];
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
        const int at = stops_.vertices.at(point);
        stops_.on_straight[i].push_back({s, at});
        stops_.on_straight[k].push_back({t, at});
    }

    void ends_on_loops() {
        for (const StraightLine& line : stops_.straight) {
            for (const Vector2d& end : {line.a, line.b}) {
                for (std::size_t k = 0; k < loops_.size(); ++k) {
                    const auto& samples = loops_[k].samples();
                    for (std::size_t j = 0; j + 1 < samples.size(); ++j) {
                        const Vector2d run = samples[j + 1].point - samples[j].point;
                        const double t = std::clamp(
                            (end - samples[j].point).dot(run) / run.squaredNorm(), 0., 1.);
                        if ((samples[j].point + t * run - end).norm() < on_line) {
                            stops_.on_loops[k].push_back(
                                {foot(loops_[k], j, end), stops_.vertices.at(end)});
                        }
                    }
                }
            }
        }
    }

    // Where the loop passes the point, between two samples or at one of them. Not by their shares:
    // s does not rise evenly, and the points of the edges beside would be drawn along by the rest.
    static double foot(const Loop& loop, std::size_t j, const Vector2d& point) {
        const Loop::Sample& a = loop.samples()[j];
        const Loop::Sample& b = loop.samples()[j + 1];
        const Vector2d run = (b.point - a.point).normalized();
        const auto beyond = [&](const Vector2d& p) { return (p - point).dot(run); };
        const Range miss{beyond(a.point), beyond(b.point)};
        const double s = miss[0] >= 0   ? a.s
                         : miss[1] <= 0 ? b.s
                                        : root(loop, beyond, {a.s, b.s}, miss);
        return std::fmod(s, loop.length());
    }

    void vertices_on_straight() {
        for (const StraightLine& line : stops_.straight) {
            stops_.vertices.at(line.a);
            stops_.vertices.at(line.b);
        }
        for (std::size_t i = 0; i < stops_.straight.size(); ++i) {
            const StraightLine& line = stops_.straight[i];
            const double length = (line.b - line.a).norm();
            const Vector2d along = (line.b - line.a) / length;
            for (std::size_t v = 0; v < stops_.vertices.points.size(); ++v) {
                const Vector2d d = stops_.vertices.points[v] - line.a;
                const double s = d.dot(along);
                if (s > -same_vertex && s < length + same_vertex &&
                    std::abs(cross(along, d)) < on_line) {
                    stops_.on_straight[i].push_back({s, static_cast<int>(v)});
                }
            }
        }
    }

    const std::vector<Loop>& loops_;
    const MeshLines& lines_;
    LineStops stops_;
};

} // namespace

int VertexGrid::at(const Vector2d& p) {
    const auto cell = [](double v) { return static_cast<long>(std::floor(v / (4 * same_vertex))); };
    for (long i = cell(p.x() - same_vertex); i <= cell(p.x() + same_vertex); ++i) {
        for (long k = cell(p.y() - same_vertex); k <= cell(p.y() + same_vertex); ++k) {
            const auto found = grid_.find({i, k});
            if (found == grid_.end()) {
                continue;
            }
            for (const int v : found->second) {
                if ((points[static_cast<std::size_t>(v)] - p).norm() < same_vertex) {
                    return v;
                }
            }
        }
    }
    const int added = static_cast<int>(points.size());
    points.push_back(p);
    grid_[{cell(p.x()), cell(p.y())}].push_back(added);
    return added;
}

LineStops line_stops(const std::vector<Loop>& loops, const MeshLines& lines) {
    return Crossings(loops, lines).stops();
}

} // namespace vrid
