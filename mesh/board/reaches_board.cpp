#include "mesh/board/reaches_board.hpp"

#include <algorithm>

#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

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

} // namespace

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

} // namespace vrid
