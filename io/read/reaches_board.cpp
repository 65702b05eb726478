#include <algorithm>

#include "io/read/read_layers.hpp"

namespace vrid {

namespace {

// Ends included, so that a ribbon that only just reaches the board is found.
constexpr int steps = 100;

bool in(const std::optional<Range>& range, double value) {
    return !range || (value >= (*range)[0] && value <= (*range)[1]);
}

bool ribbon_reaches(const Zone& zone, const Planform& planform) {
    const Ribbon& ribbon = *zone.ribbon;
    const Eigen::Vector2d along = ribbon.to - ribbon.from;
    const Eigen::Vector2d across =
        Eigen::Vector2d(-along.y(), along.x()).normalized() * ribbon.width / 2;
    for (int i = 0; i <= steps; ++i) {
        for (const double side : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
            const Eigen::Vector2d point = ribbon.from + along * i / steps + across * side;
            if (in(zone.x, point.x()) && contains(planform, point)) {
                return true;
            }
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
    for (int i = 0; i <= steps && from < to; ++i) {
        const auto y = y_extent(planform, from + (to - from) * i / steps);
        if (!y || !((*y)[0] < (*y)[1])) {
            continue;
        }
        // no point is farther from the outline than half the width
        const bool band = !zone.outline || (*zone.outline)[0] < ((*y)[1] - (*y)[0]) / 2;
        const bool side = !zone.y || ((*zone.y)[0] < (*y)[1] && (*zone.y)[1] > (*y)[0]);
        if (band && side) {
            return true;
        }
    }
    return false;
}

} // namespace vrid
