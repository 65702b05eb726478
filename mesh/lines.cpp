#include "mesh/lines.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <sstream>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

constexpr double close_station = 3e-3; // a soft line this near to another adds only slivers [m]
constexpr double close_band = 2e-4;    // [m]

std::string in_mm(double metres) {
    std::ostringstream text;
    text << std::round(metres * 1e5) / 100 << " mm";
    return text.str();
}

// Lines of one direction, each with the range along it where it is needed.
struct Level {
    double at = 0;
    Range along{};
    Rank rank = Rank::zone;
    std::string name;
};

bool soft(Rank rank) {
    return rank < Rank::foot;
}

// Moves each level to the highest-ranked one within reach; leaves out what then says the same.
std::vector<Level> merged(std::vector<Level> levels, double close) {
    std::ranges::stable_sort(levels, std::greater<>{}, &Level::rank);
    std::vector<Level> kept;
    for (Level level : levels) {
        bool covered = false;
        for (const Level& other : kept) {
            const bool overlap =
                level.along[0] <= other.along[1] && other.along[0] <= level.along[1];
            const double gap = std::abs(level.at - other.at);
            if (gap <= same_line) {
                level.at = other.at;
            }
            const bool within =
                level.along[0] >= other.along[0] && level.along[1] <= other.along[1];
            covered = covered || (within && gap <= same_line) ||
                      (overlap && within && soft(level.rank) && gap <= close);
        }
        if (!covered) {
            kept.push_back(level);
        }
    }
    std::ranges::stable_sort(kept, {}, &Level::at);
    return kept;
}

class Collector {
  public:
    Collector(const Board& board, const MeshOptions& options) : board_(board), options_(options) {
        x_ = x_extent(board.planform);
        y_ = y_bounds();
    }

    MeshLines lines() {
        add_stations();
        add_body();
        add_layers();
        add_feet();
        add_resolved_strips();
        level_lines_.push_back({0, x_, Rank::axis, "long axis"});
        return arranged();
    }

  private:
    [[nodiscard]] Range y_bounds() const {
        Range bounds{0, 0};
        for (const OutlinePiece& piece : board_.planform.outline) {
            for (const double t : flat_parameters(piece, 1e-4)) {
                const double y = point_at(piece, t).y();
                bounds = {std::min(bounds[0], y - 1e-3), std::max(bounds[1], y + 1e-3)};
            }
        }
        return bounds;
    }

    void station(double x, Rank rank, const std::string& what) {
        if (x > x_[0] + same_line && x < x_[1] - same_line) {
            stations_.push_back({x, y_, rank, what + " at x = " + in_mm(x)});
        } else if (x > x_[0] - same_line && x < x_[1] + same_line) {
            across_.insert(x < 0 ? x_[0] : x_[1]);
        }
    }
    void stations(const std::optional<Range>& x, const std::string& what) {
        if (x) {
            station((*x)[0], Rank::station, what);
            station((*x)[1], Rank::station, what);
        }
    }
    void level_line(double y, Range along, Rank rank, const std::string& what) {
        along = {std::max(along[0], x_[0]), std::min(along[1], x_[1])};
        if (y > y_[0] && y < y_[1] && along[0] < along[1]) {
            level_lines_.push_back({y, along, rank, what + " at y = " + in_mm(y)});
        }
    }
    void band(double distance, Rank rank, const std::string& what) {
        if (distance > same_line) {
            bands_.push_back(
                {distance, {}, rank, what + " " + in_mm(distance) + " from the outline"});
        }
    }

    void add_stations() {
        const double half = board_.planform.running_length / 2;
        station(-half, Rank::wanted_station, "rear contact station");
        station(half, Rank::wanted_station, "front contact station");
        for (const auto& own : board_.planform.edge_contact) {
            if (own) { // the chord across the board there is told apart from the edge's turn
                station((*own)[0], Rank::wanted_station, "an edge's rear contact station");
                station((*own)[1], Rank::wanted_station, "an edge's front contact station");
            }
        }
        for (const double x : options_.stations) {
            station(x, Rank::wanted_station, "station");
        }
        if (!board_.core) {
            return;
        }
        const Profile& core = board_.core->thickness;
        const bool kinks = core.interpolation == Interpolation::linear;
        for (const double x : core.x) {
            station(x, kinks ? Rank::station : Rank::smooth, "core station");
        }
        for (const auto* strips : {&board_.core->strips, &board_.core->strips_right}) {
            for (const Strip& strip : *strips) {
                stations(strip.x, "end of core strip");
            }
        }
        if (!board_.core->strips_right.empty()) {
            level_line(0, x_, Rank::zone, "the core's halves meet");
        }
        for (const double y : board_.core->cross ? board_.core->cross->x : std::vector<double>{}) {
            level_line(y, x_, Rank::zone, "kink of the core's cross profile");
        }
    }

    void add_body() {
        if (board_.tip_spacer) {
            stations(board_.tip_spacer->x, "tip spacer");
        }
        if (board_.edge) {
            band(board_.edge->width, Rank::band, "edge");
            stations(board_.edge->x, "end of edge");
            if (board_.edge->flange) {
                band(board_.edge->width + board_.edge->flange->width, Rank::band, "flange");
            }
        }
        if (board_.sidewall) {
            band(board_.sidewall->width, Rank::band, "sidewall");
            stations(board_.sidewall->x, "end of sidewall");
        }
        for (const double distance : options_.outline_bands) {
            band(distance, Rank::wanted_band, "band");
        }
    }

    void add_layers() {
        for (const Layer& layer : board_.layers) {
            for (const Zone& zone : zones_of(layer)) {
                add_zone(zone, 1, layer.name);
                if (layer.mirror) {
                    add_zone(zone, -1, layer.name);
                }
            }
        }
    }

    void add_zone(const Zone& zone, double side, const std::string& layer) {
        const std::string what = "zone of '" + layer + "'";
        stations(zone.x, what);
        if (zone.outline) {
            band((*zone.outline)[0], Rank::band, what);
            band((*zone.outline)[1], Rank::band, what);
        }
        if (zone.y) {
            level_line(side * (*zone.y)[0], zone.x.value_or(x_), Rank::zone, what);
            level_line(side * (*zone.y)[1], zone.x.value_or(x_), Rank::zone, what);
        }
        if (zone.ribbon) {
            add_ribbon(zone, side, what);
        }
        for (std::size_t i = 0; i < zone.polygon.size(); ++i) {
            const Vector2d& a = zone.polygon[i];
            const Vector2d& b = zone.polygon[(i + 1) % zone.polygon.size()];
            add_side({a.x(), side * a.y()}, {b.x(), side * b.y()}, zone.x.value_or(x_), what);
        }
    }

    // A side of a polygon within the stations x.
    void add_side(const Vector2d& a, const Vector2d& b, const Range& x, const std::string& what) {
        constexpr double aligned = 2e-5; // drift from the axis over the side's length [m]
        if (std::abs(b.x() - a.x()) < aligned) {
            station((a.x() + b.x()) / 2, Rank::station, what);
        } else if (std::abs(b.y() - a.y()) < aligned) {
            const Range reach{std::max(x[0], std::min(a.x(), b.x())),
                              std::min(x[1], std::max(a.x(), b.x()))};
            level_line((a.y() + b.y()) / 2, reach, Rank::zone, what);
        } else {
            slanted(a, b, x, y_, "side of " + what);
        }
    }

    void add_ribbon(const Zone& zone, double side, const std::string& what) {
        const Ribbon& ribbon = *zone.ribbon;
        const Vector2d from(ribbon.from.x(), side * ribbon.from.y());
        const Vector2d to(ribbon.to.x(), side * ribbon.to.y());
        const Vector2d along = (to - from).normalized();
        const Vector2d across = Vector2d(-along.y(), along.x()) * ribbon.width / 2;
        Range x = zone.x.value_or(x_);
        Range y = zone.y ? *zone.y : y_;
        if (zone.y && side < 0) {
            y = {-(*zone.y)[1], -(*zone.y)[0]};
        }
        const double length = (to - from).norm();
        constexpr double aligned = 2e-5; // drift from the axis over the ribbon's length [m]
        if (std::abs(along.y()) * length < aligned) {
            const Range reach{std::max(x[0], std::min(from.x(), to.x())),
                              std::min(x[1], std::max(from.x(), to.x()))};
            station(std::min(from.x(), to.x()), Rank::station, what);
            station(std::max(from.x(), to.x()), Rank::station, what);
            level_line(from.y() - ribbon.width / 2, reach, Rank::zone, what);
            level_line(from.y() + ribbon.width / 2, reach, Rank::zone, what);
            return;
        }
        slanted(from + across, to + across, x, y, "side of " + what);
        slanted(from - across, to - across, x, y, "side of " + what);
        slanted(from - across, from + across, x, y, "end of " + what);
        slanted(to - across, to + across, x, y, "end of " + what);
    }

    // The part of a-b inside the rectangle x, y.
    void slanted(Vector2d a, Vector2d b, const Range& x, const Range& y, const std::string& what) {
        const std::array<Range, 2> box{x, y};
        double low = 0;
        double high = 1;
        for (int axis = 0; axis < 2; ++axis) {
            const double start = a[axis];
            const double run = b[axis] - a[axis];
            for (const double limit : box[static_cast<std::size_t>(axis)]) {
                const bool lower = limit == box[static_cast<std::size_t>(axis)][0];
                if (run == 0) {
                    low = (lower ? start < limit : start > limit) ? 1 : low;
                    continue;
                }
                const double t = (limit - start) / run;
                ((run > 0) == lower ? low : high) =
                    (run > 0) == lower ? std::max(low, t) : std::min(high, t);
            }
        }
        const Vector2d from = a + low * (b - a);
        const Vector2d to = a + high * (b - a);
        const bool known = std::ranges::any_of(slanted_, [&](const auto& line) {
            return (line.a - from).norm() < same_line && (line.b - to).norm() < same_line;
        });
        if (high - low > 1e-9 && !known) { // two layers often share one ribbon
            slanted_.push_back({from, to, Rank::zone, what});
        }
    }

    void add_feet() {
        if (!board_.stance) {
            return;
        }
        const Stance& stance = *board_.stance;
        for (const double middle : {stance.rear(), stance.front()}) {
            const std::string foot = middle == stance.rear() ? "rear foot" : "front foot";
            const Range x{middle - stance.foot_length / 2, middle + stance.foot_length / 2};
            station(x[0], Rank::wanted_station, foot);
            station(x[1], Rank::wanted_station, foot);
            level_line(stance.foot_width / 2, x, Rank::foot, foot);
            level_line(-stance.foot_width / 2, x, Rank::foot, foot);
        }
    }

    void add_resolved_strips() {
        if (!board_.core || !board_.core->resolve || board_.core->strips.empty()) {
            return;
        }
        const Core& core = *board_.core;
        add_strip_borders(core.strips, 1, y_[1]);
        add_strip_borders(core.strips_right.empty() ? core.strips : core.strips_right, -1, -y_[0]);
    }

    void add_strip_borders(const std::vector<Strip>& strips, double side, double reach) {
        double y = 0;
        for (std::size_t k = 0; y < reach; ++k) {
            const double width = strips[k % strips.size()].width;
            if (!(width > 0)) {
                break;
            }
            level_line(side * y, x_, Rank::zone, "core strip");
            y += width;
        }
    }

    MeshLines arranged() {
        MeshLines lines;
        const std::vector<Level> stations = merged(std::move(stations_), close_station);
        const auto snapped = [&](double x) {
            for (const Level& s : stations) {
                x = std::abs(s.at - x) <= same_line ? s.at : x;
            }
            return x;
        };
        for (const Level& s : stations) {
            lines.straight.push_back({{s.at, y_[0]}, {s.at, y_[1]}, s.rank, s.name});
            across_.insert(s.at);
        }
        lines.stations.assign(across_.begin(), across_.end());
        for (Level& line : level_lines_) {
            line.along = {snapped(line.along[0]), snapped(line.along[1])};
        }
        for (const Level& y : merged(std::move(level_lines_), close_station)) {
            lines.straight.push_back({{y.along[0], y.at}, {y.along[1], y.at}, y.rank, y.name});
        }
        lines.straight.insert(lines.straight.end(), slanted_.begin(), slanted_.end());
        for (const Level& d : merged(std::move(bands_), close_band)) {
            lines.parallels.push_back({d.at, d.rank, d.name});
        }
        add_corner_fans(board_.planform, lines);
        lines.symmetric = is_symmetric(board_.planform, lines);
        return lines;
    }

    const Board& board_;
    const MeshOptions& options_;
    Range x_{}, y_{};
    std::vector<Level> stations_, level_lines_, bands_;
    std::set<double> across_; // stations, those along a side of the board too
    std::vector<StraightLine> slanted_;
};

} // namespace

MeshLines collect_lines(const Board& board, const MeshOptions& options) {
    return Collector(board, options).lines();
}

} // namespace vrid
