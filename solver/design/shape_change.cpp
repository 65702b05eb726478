#include "solver/design/shape_change.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "mesh/board/error.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/mesh_lines.hpp"
#include "solver/design/line_kinds.hpp"
#include "solver/laminate/layup.hpp"

namespace vrid {

namespace {

DesignPlace place_of(Board& board, const DesignId& id) {
    std::vector<DesignPlace> places;
    add_line_places(board, places);
    const auto found = std::ranges::find(places, id, &DesignPlace::id);
    if (found == places.end()) {
        throw std::logic_error("the board has no such value that moves lines");
    }
    return *found;
}

// Whether the section is another one on the two sides of a place.
bool jumps(const Layup<double>& layup, const Vector2d& at, const Vector2d& across) {
    const Vector2d a = at - across;
    const Vector2d b = at + across;
    return contains(layup.board->planform, a) && contains(layup.board->planform, b) &&
           stack_key(layup, a) != stack_key(layup, b);
}

constexpr int probes = 41;
constexpr double beside = 2e-4;  // of a line, to see what is there [m]
constexpr double apart = 3e-4;   // of a value, for lines on each other to be two
constexpr double near_by = 5e-4; // of a line: what parted from it then [m]

bool jumps_along(const Layup<double>& layup, const StraightLine& line) {
    const Vector2d along = line.b - line.a;
    const Vector2d across = beside * Vector2d(-along.y(), along.x()).normalized();
    for (int k = 0; k < probes; ++k) {
        if (jumps(layup, line.a + (k + 0.5) / probes * along, across)) {
            return true;
        }
    }
    return false;
}

bool jumps_along(const Layup<double>& layup, const ParallelLine& line) {
    const Planform& planform = layup.board->planform;
    for (std::size_t piece = 0; piece < planform.outline.size(); ++piece) {
        for (int k = 0; k < probes; ++k) {
            const OutlinePlace place{static_cast<int>(piece), (k + 0.5) / probes};
            const Vector2d along = tangent_at(planform, place).normalized();
            const Vector2d inwards(-along.y(), along.x());
            if (jumps(layup, point_at(planform, place) + line.distance * inwards,
                      beside * inwards)) {
                return true;
            }
        }
    }
    return false;
}

// Lines of the mesh that are two when the value is another one: one of them has no partner.
bool parts(const MeshLines& here, const MeshLines& there, const Layup<double>& layup) {
    if (there.straight.size() > here.straight.size()) {
        for (const StraightLine& line : here.straight) {
            const auto near = std::ranges::count_if(there.straight, [&](const StraightLine& other) {
                const Vector2d along = (line.b - line.a).normalized();
                const Vector2d from = (other.a + other.b) / 2 - line.a;
                const Vector2d way = (other.b - other.a).normalized();
                return std::abs(along.x() * way.y() - along.y() * way.x()) < 1e-3 &&
                       std::abs(along.x() * from.y() - along.y() * from.x()) < near_by;
            });
            if (near > 1 && jumps_along(layup, line)) {
                return true;
            }
        }
    }
    if (there.parallels.size() > here.parallels.size()) {
        for (const ParallelLine& line : here.parallels) {
            const auto near =
                std::ranges::count_if(there.parallels, [&](const ParallelLine& other) {
                    return std::abs(other.distance - line.distance) < near_by;
                });
            if (near > 1 && jumps_along(layup, line)) {
                return true;
            }
        }
    }
    return false;
}

} // namespace

double line_value(const Board& board, const DesignId& id) {
    Board copy = board; // places refer to a board that can be changed
    return *value_now(place_of(copy, id));
}

Board with_line_value(const Board& board, const LineValue& line, double value) {
    Board copy = board;
    const DesignPlace place = place_of(copy, line.id);
    const double ratio = value / *value_now(place);
    set_value(place, value);
    for (const DesignId& along : line.carry) {
        const DesignPlace carried = place_of(copy, along);
        set_value(carried, ratio * *value_now(carried));
    }
    redraw(copy);
    return copy;
}

ShapeChange shape_change(const Board& board, const LineValue& line, double step) {
    const double now = line_value(board, line.id);
    ShapeChange change{line, nullptr, nullptr, 0, 0};
    std::optional<InputError> wrong;
    for (const double way : {-step, step}) {
        try {
            auto moved = std::make_shared<const Board>(with_line_value(board, line, now + way));
            (way < 0 ? change.below : change.above) = std::move(moved);
            change.width += step;
            change.low = std::min(change.low, way);
        } catch (const InputError& error) {
            wrong = error;
        }
    }
    if (change.width == 0) {
        throw *wrong;
    }
    const auto same = std::make_shared<const Board>(board);
    change.below = change.below ? change.below : same;
    change.above = change.above ? change.above : same;
    return change;
}

std::vector<Board> boards_between(const Board& from, const Board& to) {
    constexpr double longest = 1e-3; // m, of a step
    constexpr double fullest = 0.02;
    constexpr int most = 60;
    Board start = from;
    Board end = to;
    std::vector<DesignPlace> at_start;
    std::vector<DesignPlace> at_end;
    add_line_places(start, at_start);
    add_line_places(end, at_end);
    const bool same = std::ranges::equal(
        at_start, at_end, [](const DesignPlace& a, const DesignPlace& b) { return a.id == b.id; });
    if (!same) {
        return {};
    }
    double steps = 1;
    for (std::size_t i = 0; i < at_start.size(); ++i) {
        const DesignProperty what = at_start[i].id.kind->property;
        const bool fullness =
            what == DesignProperty::nose_fullness || what == DesignProperty::tail_fullness;
        steps = std::max(steps, std::abs(*value_now(at_end[i]) - *value_now(at_start[i])) /
                                    (fullness ? fullest : longest));
    }
    if (steps > most) {
        return {};
    }
    std::vector<Board> path{from};
    const int count = static_cast<int>(std::ceil(steps));
    for (int k = 1; k <= count; ++k) {
        Board between = from;
        std::vector<DesignPlace> places;
        add_line_places(between, places);
        for (std::size_t i = 0; i < places.size(); ++i) {
            const double a = *value_now(at_start[i]);
            const double b = *value_now(at_end[i]);
            set_value(places[i], k == count ? b : a + (b - a) * k / count);
        }
        try {
            redraw(between);
        } catch (const InputError&) {
            return {};
        }
        path.push_back(std::move(between));
    }
    if (mesh_lines(path.back()) != mesh_lines(to)) {
        return {};
    }
    return path;
}

MeshLines meant_lines(const Board& board, const StationsOf& stations) {
    MeshOptions options;
    options.stations = stations(board);
    return collect_lines(board, options);
}

MeshVelocity velocity_of(const MeshMotion& motion, const ShapeChange& change,
                         const StationsOf& stations) {
    const MeshLines below = meant_lines(*change.below, stations);
    const MeshLines above = meant_lines(*change.above, stations);
    return motion.velocity({*change.below, *change.above, below, above, change.width});
}

bool has_kink(const Board& board, const LineValue& line, const StationsOf& stations) {
    const double now = line_value(board, line.id);
    const MeshLines here = meant_lines(board, stations);
    const Layup<double> layup = make_layup<double>(board);
    for (const double way : {-apart, apart}) {
        try {
            const Board moved = with_line_value(board, line, now + way);
            if (parts(here, meant_lines(moved, stations), layup)) {
                return true;
            }
        } catch (const InputError&) { // there is no board there: nothing to part
        }
    }
    return false;
}

} // namespace vrid
