#include "mesh/board/mirror_overlap.hpp"

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

} // namespace vrid
