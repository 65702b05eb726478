#include <limits>

#include "io/read/read_tables.hpp"

namespace vrid {

namespace {

Ribbon read_ribbon(TableReader& table) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    const Eigen::Vector2d unread(nan, nan);
    const Eigen::Vector2d from = table.pair("from_mm").value_or(unread);
    const Eigen::Vector2d to = table.pair("to_mm").value_or(unread);
    return {from, to, table.number("width_mm")};
}

Zone read_zone(TableReader table) {
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
        zone.polygon = table.points("polygon_mm");
        table.refuse("y_mm", "not accepted beside polygon_mm");
    } else {
        zone.y = table.range_if("y_mm");
    }
    if (ribbon || table.has("outline_mm")) {
        table.refuse("polygon_mm", "not accepted beside a ribbon or outline_mm");
    }
    table.know({"x_mm", "y_mm", "from_mm", "to_mm", "width_mm", "outline_mm", "polygon_mm"});
    table.finish();
    return zone;
}

} // namespace

std::vector<Zone> read_zones(TableReader& table) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    const Zone unread{Range{nan, nan}, {}, {}, {}, {}}; // so that the layer is not everywhere
    std::vector<Zone> zones;
    table.know({"zone", "zones"});
    if (auto zone = table.table_if("zone")) {
        table.refuse("zones", "not accepted beside zone; accepted: all of them in zones");
        zones.push_back(read_zone(*zone));
        return zones;
    }
    const std::size_t problems = table.reading().problems.size();
    for (const TableReader& zone : table.tables("zones")) {
        zones.push_back(read_zone(zone));
    }
    if (table.has("zones") && zones.empty() && table.reading().problems.size() == problems) {
        table.wrong("zones", "an array of at least one zone");
    }
    if (zones.empty() && (table.has("zone") || table.has("zones"))) {
        zones.push_back(unread);
    }
    return zones;
}

} // namespace vrid
