#include "mesh/board/check_zones.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

// The ribbon's y range at station x: its rectangle is convex. Nothing beyond its ends.
std::optional<Range> ribbon_range(const Ribbon& ribbon, double x) {
    const Eigen::Vector2d along = (ribbon.to - ribbon.from).normalized();
    const Eigen::Vector2d half = Eigen::Vector2d(-along.y(), along.x()) * ribbon.width / 2;
    const std::array<Eigen::Vector2d, 4> corner{ribbon.from - half, ribbon.to - half,
                                                ribbon.to + half, ribbon.from + half};
    std::optional<Range> range;
    for (std::size_t i = 0; i < 4; ++i) {
        const Eigen::Vector2d& a = corner[i];
        const Eigen::Vector2d& b = corner[(i + 1) % 4];
        if ((a.x() - x) * (b.x() - x) < 0) {
            const double y = a.y() + (x - a.x()) / (b.x() - a.x()) * (b.y() - a.y());
            range = range ? Range{std::min((*range)[0], y), std::max((*range)[1], y)} : Range{y, y};
        }
    }
    return range;
}

using Ranges = std::vector<Range>;

void add_ranges(const Zone& zone, double x, Ranges& ranges) {
    constexpr double far = std::numeric_limits<double>::max();
    if (!inside(zone.x, x)) {
        return;
    }
    if (!zone.polygon.empty()) {
        const std::vector<double> y = polygon_crossings(zone.polygon, x);
        for (std::size_t i = 0; i + 1 < y.size(); i += 2) {
            ranges.push_back({y[i], y[i + 1]});
        }
    } else if (!zone.ribbon) {
        ranges.push_back(zone.y.value_or(Range{-far, far}));
    } else if (const auto range = ribbon_range(*zone.ribbon, x)) {
        ranges.push_back(*range);
    }
}

// The same places as ranges that rise and do not touch, cut at the board's sides.
Ranges joined(Ranges ranges, const Range& board) {
    std::ranges::sort(ranges);
    Ranges all;
    for (Range range : ranges) {
        range = {std::max(range[0], board[0]), std::min(range[1], board[1])};
        if (!(range[0] < range[1])) {
            continue;
        }
        if (!all.empty() && range[0] <= all.back()[1]) {
            all.back()[1] = std::max(all.back()[1], range[1]);
        } else {
            all.push_back(range);
        }
    }
    return all;
}

double common_length(const Ranges& a, const Ranges& b) {
    double length = 0;
    for (const Range& p : a) {
        for (const Range& q : b) {
            length += std::max(0.0, std::min(p[1], q[1]) - std::max(p[0], q[0]));
        }
    }
    return length;
}

// The stations that the zones reach; empty where from is not below to.
Range reach_of(const std::vector<Zone>& zones, const Planform& planform) {
    const auto [tail, nose] = x_extent(planform);
    Range all{nose, tail};
    for (const Zone& zone : zones) {
        Range one = zone.x.value_or(Range{tail, nose});
        if (zone.ribbon) {
            const double reach = zone.ribbon->width / 2;
            one[0] = std::max(one[0], std::min(zone.ribbon->from.x(), zone.ribbon->to.x()) - reach);
            one[1] = std::min(one[1], std::max(zone.ribbon->from.x(), zone.ribbon->to.x()) + reach);
        }
        if (!zone.polygon.empty()) {
            const auto [low, high] =
                std::minmax_element(zone.polygon.begin(), zone.polygon.end(),
                                    [](const auto& a, const auto& b) { return a.x() < b.x(); });
            one = {std::max(one[0], low->x()), std::min(one[1], high->x())};
        }
        all = {std::min(all[0], one[0]), std::max(all[1], one[1])};
    }
    return {std::max(all[0], tail), std::min(all[1], nose)};
}

// Ends included, so that a ribbon that only just reaches the board is found.
constexpr int steps = 100;

bool ribbon_reaches(const Zone& zone, const Planform& planform) {
    const Ribbon& ribbon = *zone.ribbon;
    const Eigen::Vector2d along = ribbon.to - ribbon.from;
    const Eigen::Vector2d across =
        Eigen::Vector2d(-along.y(), along.x()).normalized() * ribbon.width / 2;
    for (int i = 0; i <= steps; ++i) {
        for (const double side : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
            const Eigen::Vector2d point = ribbon.from + along * i / steps + across * side;
            if (inside(zone.x, point.x()) && contains(planform, point)) {
                return true;
            }
        }
    }
    return false;
}

bool polygon_reaches(const std::vector<Eigen::Vector2d>& polygon, double x, const Range& within) {
    const std::vector<double> y = polygon_crossings(polygon, x);
    for (std::size_t i = 0; i + 1 < y.size(); i += 2) {
        if (y[i] < within[1] && y[i + 1] > within[0]) {
            return true;
        }
    }
    return false;
}

bool check_ribbon(const Ribbon& ribbon, PartCheck& check) {
    constexpr double shortest = 1e-4; // 0.1 mm: shorter has no direction [m]
    const bool from = check.finite("from", ribbon.from);
    const bool to = check.finite("to", ribbon.to);
    const bool width = check.positive("width", ribbon.width);
    if (from && to && (ribbon.to - ribbon.from).norm() < shortest) {
        check.note(Fault::short_ribbon, "to", {ribbon.to.x(), ribbon.to.y()});
        return false;
    }
    return from && to && width;
}

bool check_polygon(const std::vector<Eigen::Vector2d>& polygon, PartCheck& check) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        if (!check.finite("polygon", polygon[i], static_cast<int>(i))) {
            return false;
        }
    }
    if (polygon.size() < 3) {
        check.note(Fault::few_corners, "polygon", {}, {static_cast<double>(polygon.size())});
        return false;
    }
    if (const auto corner = crossing_corner(polygon)) {
        check.note(Fault::crossing_sides, "polygon", {}, {}, static_cast<int>(*corner));
        return false;
    }
    return true;
}

bool check_zone(const Zone& zone, const Planform* planform, PartCheck check) {
    const bool x = check.range("x", zone.x);
    const bool y = check.range("y", zone.y);
    const bool band = check.range("outline", zone.outline);
    const bool ribbon = !zone.ribbon || check_ribbon(*zone.ribbon, check);
    const bool polygon = zone.polygon.empty() || check_polygon(zone.polygon, check);
    if (!x || !y || !band || !ribbon || !polygon) {
        return false;
    }
    if (planform != nullptr && !reaches_board(zone, *planform)) {
        check.note(Fault::misses_board, "");
        return false;
    }
    return true;
}

// A layer that was meant to lie on both sides must not lie twice in the middle.
void check_mirror(const std::vector<Zone>& zones, const Planform& planform, PartCheck& check) {
    constexpr double nothing = 1e-9; // [m2]
    const MirrorOverlap overlap = mirror_overlap(zones, planform);
    if (overlap.whole) {
        check.note(Fault::mirror_whole, "mirror");
    } else if (overlap.area > nothing) {
        check.note(overlap.crossing ? Fault::mirror_crossing : Fault::mirror_overlap, "mirror", {},
                   {overlap.area});
    }
}

} // namespace

MirrorOverlap mirror_overlap(const std::vector<Zone>& zones, const Planform& planform) {
    constexpr double rounding = 1e-9; // relative
    MirrorOverlap overlap;
    for (const Zone& zone : zones) {
        if (zone.outline) {
            return {0, true, false};
        }
        overlap.crossing =
            overlap.crossing ||
            (zone.ribbon && std::abs(zone.ribbon->to.y() - zone.ribbon->from.y()) >
                                rounding * (zone.ribbon->to - zone.ribbon->from).norm());
    }
    const auto [from, to] = reach_of(zones, planform);
    constexpr int steps = 2000;
    double all = 0;
    for (int i = 0; i < steps && from < to; ++i) {
        const double x = from + (to - from) * (i + 0.5) / steps;
        const auto board = y_extent(planform, x);
        if (!board) {
            continue;
        }
        Ranges ranges;
        for (const Zone& zone : zones) {
            add_ranges(zone, x, ranges);
        }
        Ranges image;
        for (const Range& range : ranges) {
            image.push_back({-range[1], -range[0]});
        }
        ranges = joined(std::move(ranges), *board);
        image = joined(std::move(image), *board);
        const double step = (to - from) / steps;
        all += step * common_length(ranges, ranges);
        overlap.area += step * common_length(ranges, image);
    }
    overlap.whole = all > 0 && overlap.area >= (1 - rounding) * all;
    return overlap;
}

bool reaches_board(const Zone& zone, const Planform& planform) {
    if (zone.ribbon) {
        return ribbon_reaches(zone, planform);
    }
    auto [from, to] = x_extent(planform);
    if (zone.x) {
        from = std::max(from, (*zone.x)[0]);
        to = std::min(to, (*zone.x)[1]);
    }
    if (!zone.polygon.empty()) { // it may be narrower than a step along the board
        const auto [tail, nose] = std::minmax_element(
            zone.polygon.begin(), zone.polygon.end(),
            [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() < b.x(); });
        from = std::max(from, tail->x());
        to = std::min(to, nose->x());
    }
    for (const Eigen::Vector2d& corner : zone.polygon) {
        if (inside(zone.x, corner.x()) && inside(zone.y, corner.y()) &&
            contains(planform, corner)) {
            return true;
        }
    }
    for (int i = 0; i <= steps && from < to; ++i) {
        const double x = from + (to - from) * i / steps;
        const auto y = y_extent(planform, x);
        if (!y || !((*y)[0] < (*y)[1])) {
            continue;
        }
        // no point is farther from the outline than half the width
        const bool band = !zone.outline || (*zone.outline)[0] < ((*y)[1] - (*y)[0]) / 2;
        const Range side = zone.y ? Range{std::max((*y)[0], (*zone.y)[0]), //
                                          std::min((*y)[1], (*zone.y)[1])}
                                  : *y;
        const bool corners = zone.polygon.empty() || polygon_reaches(zone.polygon, x, side);
        if (band && side[0] < side[1] && corners) {
            return true;
        }
    }
    return false;
}

void check_stations(const std::optional<Range>& x, const Planform* planform, PartCheck& check) {
    if (!check.range("x", x) || !x || planform == nullptr) {
        return;
    }
    const auto [tail, nose] = x_extent(*planform);
    if ((*x)[1] <= tail || (*x)[0] >= nose) {
        check.note(Fault::off_board, "x", {(*x)[0], (*x)[1]});
    }
}

void check_zones(const Layer& layer, const Planform* planform, PartCheck& check) {
    const std::vector<Zone> zones = zones_of(layer);
    bool sound = true;
    for (std::size_t i = 0; i < zones.size(); ++i) {
        sound = check_zone(zones[i], planform, check.in("zone", static_cast<int>(i))) && sound;
    }
    if (!layer.mirror || !sound) {
        return;
    }
    if (zones.size() == 1 && is_everywhere(zones.front())) {
        check.note(Fault::mirror_everywhere, "mirror");
    } else if (planform != nullptr) {
        check_mirror(zones, *planform, check);
    }
}

} // namespace vrid
