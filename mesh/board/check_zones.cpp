#include "mesh/board/check_zones.hpp"

#include "mesh/board/mirror_overlap.hpp"
#include "mesh/board/reaches_board.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

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
