#include <cmath>

#include "io/read/read_layers.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

std::optional<Ribbon> read_ribbon(TableReader& table) {
    const auto from = table.pair("from_mm");
    const auto to = table.pair("to_mm");
    const double width = table.number("width_mm");
    if (!from || !to || std::isnan(width)) {
        return std::nullopt;
    }
    constexpr double shortest = 1e-4; // 0.1 mm: shorter has no direction [m]
    if ((*to - *from).norm() < shortest) {
        table.wrong("to_mm", "an end at least 0.1 mm from from_mm: a ribbon has a length");
        return std::nullopt;
    }
    return Ribbon{*from, *to, width};
}

// Corners in order; nothing after a problem.
std::vector<Eigen::Vector2d> read_corners(TableReader& table) {
    const std::size_t problems = table.reading().problems.size();
    std::vector<Eigen::Vector2d> corners = table.points("polygon_mm");
    if (table.reading().problems.size() > problems) {
        return {};
    }
    if (corners.size() < 3) {
        table.wrong("polygon_mm", "at least three corners [x, y]");
        return {};
    }
    if (const auto corner = crossing_corner(corners)) {
        const std::string name = table.path() + ".polygon_mm[" + std::to_string(*corner) + "]";
        note_problem(table.reading(), table.reading().places.at(name),
                     name + ": the side from this corner to the next meets another side, lies on "
                            "one or has no length; accepted: sides that meet at corners only");
        return {};
    }
    return corners;
}

Zone read_zone(TableReader table, const Stock& stock) {
    const std::size_t problems = table.reading().problems.size();
    Zone zone;
    zone.x = table.range_if("x_mm");
    const bool ribbon = table.has("from_mm") || table.has("to_mm") || table.has("width_mm");
    if (ribbon) {
        zone.ribbon = read_ribbon(table);
        table.refuse("y_mm", "not accepted beside a ribbon (from_mm, to_mm, width_mm)");
        table.refuse("outline_mm", "not accepted beside a ribbon (from_mm, to_mm, width_mm)");
    } else if (table.has("outline_mm")) {
        zone.outline = table.range_if("outline_mm");
        table.refuse("y_mm", "not accepted beside outline_mm");
    } else if (table.has("polygon_mm")) {
        zone.polygon = read_corners(table);
        table.refuse("y_mm", "not accepted beside polygon_mm");
    } else {
        zone.y = table.range_if("y_mm");
    }
    if (ribbon || table.has("outline_mm")) {
        table.refuse("polygon_mm", "not accepted beside a ribbon or outline_mm");
    }
    table.know({"x_mm", "y_mm", "from_mm", "to_mm", "width_mm", "outline_mm", "polygon_mm"});
    table.finish();
    const bool sound = table.reading().problems.size() == problems;
    if (sound && stock.planform != nullptr && !reaches_board(zone, *stock.planform)) {
        note_problem(table.reading(), table.place(), table.path() + ": the zone misses the board");
    }
    return zone;
}

} // namespace

std::vector<Zone> read_zones(TableReader& table, const Stock& stock) {
    std::vector<Zone> zones;
    table.know({"zone", "zones"});
    if (auto zone = table.table_if("zone")) {
        table.refuse("zones", "not accepted beside zone; accepted: all of them in zones");
        zones.push_back(read_zone(*zone, stock));
        return zones;
    }
    const std::size_t problems = table.reading().problems.size();
    for (const TableReader& zone : table.tables("zones")) {
        zones.push_back(read_zone(zone, stock));
    }
    if (table.has("zones") && zones.empty() && table.reading().problems.size() == problems) {
        table.wrong("zones", "an array of at least one zone");
    }
    return zones;
}

} // namespace vrid
