#include "mesh/board/mirror_overlap.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

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

std::optional<Range> zone_range(const Zone& zone, double x) {
    constexpr double far = std::numeric_limits<double>::max();
    return zone.ribbon ? ribbon_range(*zone.ribbon, x) : zone.y.value_or(Range{-far, far});
}

} // namespace

MirrorOverlap mirror_overlap(const Zone& zone, const Planform& planform) {
    if (zone.outline) {
        return {0, true, false};
    }
    auto [from, to] = x_extent(planform);
    if (zone.x) {
        from = std::max(from, (*zone.x)[0]);
        to = std::min(to, (*zone.x)[1]);
    }
    if (zone.ribbon) {
        const double reach = zone.ribbon->width / 2;
        from = std::max(from, std::min(zone.ribbon->from.x(), zone.ribbon->to.x()) - reach);
        to = std::min(to, std::max(zone.ribbon->from.x(), zone.ribbon->to.x()) + reach);
    }
    constexpr int steps = 2000;
    MirrorOverlap overlap;
    double all = 0;
    for (int i = 0; i < steps && from < to; ++i) {
        const double x = from + (to - from) * (i + 0.5) / steps;
        const auto y = zone_range(zone, x);
        const auto board = y_extent(planform, x);
        if (!y || !board) {
            continue;
        }
        const double right = std::max((*y)[0], (*board)[0]);
        const double left = std::min((*y)[1], (*board)[1]);
        const double image_right = std::max(right, -(*y)[1]);
        const double image_left = std::min(left, -(*y)[0]);
        const double step = (to - from) / steps;
        all += step * std::max(0.0, left - right);
        overlap.area += step * std::max(0.0, image_left - image_right);
    }
    constexpr double rounding = 1e-9; // relative
    overlap.whole = all > 0 && overlap.area >= (1 - rounding) * all;
    overlap.crossing = zone.ribbon && std::abs(zone.ribbon->to.y() - zone.ribbon->from.y()) >
                                          rounding * (zone.ribbon->to - zone.ribbon->from).norm();
    return overlap;
}

} // namespace vrid
