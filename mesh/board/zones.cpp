#include "mesh/board/zones.hpp"

#include <algorithm>

#include "mesh/board/cross.hpp"
#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

double distance(const Vector2d& p, const Vector2d& a, const Vector2d& b) {
    const Vector2d along = b - a;
    const double t = std::clamp((p - a).dot(along) / along.squaredNorm(), 0.0, 1.0);
    return (p - a - t * along).norm();
}

// Angle against +x of a layer's 0 direction in a zone: it runs along a ribbon.
double zone_turn(const Zone& zone) {
    if (!zone.ribbon) {
        return 0;
    }
    const Vector2d axis = zone.ribbon->to - zone.ribbon->from;
    return std::atan2(axis.y(), axis.x());
}

// Whether two sides cross or come as near as one place.
bool meet(const Vector2d& a, const Vector2d& b, const Vector2d& c, const Vector2d& d) {
    const bool astride = (cross(b - a, c - a) > 0) != (cross(b - a, d - a) > 0) &&
                         (cross(d - c, a - c) > 0) != (cross(d - c, b - c) > 0);
    return astride || std::min({distance(a, c, d), distance(b, c, d), distance(c, a, b),
                                distance(d, a, b)}) <= same_place;
}

} // namespace

std::optional<std::size_t> crossing_corner(const std::vector<Vector2d>& polygon) {
    const std::size_t n = polygon.size();
    const auto corner = [&](std::size_t i) -> const Vector2d& { return polygon[i % n]; };
    for (std::size_t i = 0; i < n; ++i) {
        const Vector2d side = corner(i + 1) - corner(i);
        const Vector2d next = corner(i + 2) - corner(i + 1);
        if (side.norm() <= same_place) {
            return i;
        }
        const bool back = side.dot(next) < 0; // the way it came
        if (back && std::abs(cross(side, next)) <= same_place * next.norm()) {
            return (i + 1) % n;
        }
    }
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = i + 2; k < n; ++k) {
            const bool neighbours = i == 0 && k + 1 == n;
            if (!neighbours && meet(corner(i), corner(i + 1), corner(k), corner(k + 1))) {
                return k;
            }
        }
    }
    return std::nullopt;
}

bool in_polygon(const std::vector<Vector2d>& polygon, const Vector2d& point) {
    bool inside = false;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vector2d& a = polygon[i];
        const Vector2d& b = polygon[(i + 1) % polygon.size()];
        if ((a.x() > point.x()) != (b.x() > point.x()) &&
            point.y() < a.y() + (point.x() - a.x()) / (b.x() - a.x()) * (b.y() - a.y())) {
            inside = !inside;
        }
    }
    return inside;
}

std::vector<double> polygon_crossings(const std::vector<Vector2d>& polygon, double x) {
    std::vector<double> y;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vector2d& a = polygon[i];
        const Vector2d& b = polygon[(i + 1) % polygon.size()];
        if ((a.x() > x) != (b.x() > x)) {
            y.push_back(a.y() + (x - a.x()) / (b.x() - a.x()) * (b.y() - a.y()));
        }
    }
    std::ranges::sort(y);
    return y;
}

std::vector<Zone> zones_of(const Layer& layer) {
    std::vector<Zone> zones{layer.zone};
    zones.insert(zones.end(), layer.more_zones.begin(), layer.more_zones.end());
    return zones;
}

std::vector<ZoneGroup> zone_groups(const Layer& layer) {
    std::vector<ZoneGroup> groups;
    for (const Zone& zone : zones_of(layer)) {
        const double turn = zone_turn(zone);
        const auto found = std::ranges::find(groups, turn, &ZoneGroup::turn);
        if (found == groups.end()) {
            groups.push_back({turn, {zone}});
        } else {
            found->zones.push_back(zone);
        }
    }
    return groups;
}

bool is_everywhere(const Zone& zone) {
    return !zone.x && !zone.y && !zone.ribbon && !zone.outline && zone.polygon.empty();
}

} // namespace vrid
