#include "io/read/read_layers.hpp"

#include <cmath>
#include <set>

#include "io/materials/read_material.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/mirror_overlap.hpp"

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
    } else {
        zone.y = table.range_if("y_mm");
    }
    table.know({"x_mm", "y_mm", "from_mm", "to_mm", "width_mm", "outline_mm"});
    table.finish();
    const bool sound = table.reading().problems.size() == problems;
    if (sound && stock.planform != nullptr && !reaches_board(zone, *stock.planform)) {
        note_problem(table.reading(), table.place(), table.path() + ": the zone misses the board");
    }
    return zone;
}

// What the layer is made of: exactly one of material, fabric and core.
void read_kind(Layer& layer, TableReader& table, const Stock& stock) {
    const bool core = table.flag_or("core", false);
    const int given =
        (core ? 1 : 0) + (table.has("material") ? 1 : 0) + (table.has("fabric") ? 1 : 0);
    if (given != 1) {
        note_problem(table.reading(), table.place(),
                     table.path() + ": found " + std::to_string(given) +
                         " of the keys material, fabric and core = true; accepted: one of them");
    }
    if (table.has("material")) {
        layer.kind = LayerKind::material;
        layer.material = read_name(table, "material", stock.materials, "material");
        layer.thickness = table.number("thickness_mm");
    } else if (table.has("fabric")) {
        layer.kind = LayerKind::fabric;
        layer.fabric = read_name(table, "fabric", stock.fabrics, "fabric");
        table.refuse("thickness_mm", "not accepted: the plies of the fabric give the thickness");
    } else if (core) {
        layer.kind = LayerKind::core;
        table.refuse("thickness_mm", "not accepted: [core] gives the thickness");
    }
    table.know({"material", "fabric", "core", "thickness_mm"});
}

// A layer that was meant to lie on both sides must not lie twice in the middle.
void check_mirror(const Layer& layer, TableReader& table, const Stock& stock) {
    if (stock.planform == nullptr) {
        return;
    }
    constexpr double nothing = 1e-9; // [m2]
    const MirrorOverlap overlap = mirror_overlap(layer.zone, *stock.planform);
    const double square_mm = from_si("x_mm", from_si("x_mm", overlap.area));
    const std::string area = number_text(round_significant(square_mm, 3)) + " mm2";
    if (overlap.whole) {
        table.problem("mirror", "its mirror image lies on it; accepted: a zone on one side of "
                                "y = 0, or no mirror");
    } else if (overlap.area > nothing && overlap.crossing) {
        table.warn("mirror", "its mirror image crosses it; over " + area + " both lie there");
    } else if (overlap.area > nothing) {
        table.problem("mirror", "its mirror image overlaps it over " + area +
                                    "; accepted: a zone on one side of y = 0");
    }
}

Layer read_layer(TableReader& table, const Stock& stock) {
    Layer layer;
    layer.name = table.text("name");
    if (!layer.name.empty()) {
        table.rename("layer." + layer.name);
    }
    read_kind(layer, table, stock);
    layer.angle = table.number_or_default("angle_deg");
    layer.flip = table.flag_or("flip", false);
    const std::size_t problems = table.reading().problems.size();
    if (auto zone = table.table_if("zone")) {
        layer.zone = read_zone(*zone, stock);
    }
    const bool sound = table.reading().problems.size() == problems;
    layer.mirror = table.flag_or("mirror", false);
    if (layer.mirror && !table.has("zone")) {
        table.problem("mirror", "a layer without a zone is everywhere and has no mirror image");
    } else if (layer.mirror && sound) {
        check_mirror(layer, table, stock);
    }
    if (layer.kind == LayerKind::core && layer.mirror) {
        table.problem("mirror", "not accepted: the core is there once");
    }
    table.finish();
    return layer;
}

} // namespace

std::vector<Layer> read_layers(TableReader& root, const Stock& stock) {
    const std::size_t problems = root.reading().problems.size();
    auto tables = root.tables("layer");
    if (tables.empty() && root.reading().problems.size() == problems) {
        root.wrong("layer", "at least one [[layer]]");
    }
    std::vector<Layer> layers;
    std::set<std::string> names;
    bool core = false;
    for (TableReader& table : tables) {
        Layer layer = read_layer(table, stock);
        if (!layer.name.empty() && !names.insert(layer.name).second) {
            table.wrong("name", "a name that no other layer has");
        }
        if (layer.kind == LayerKind::core) {
            if (core) {
                table.wrong("core", "one core layer");
            }
            core = true;
        }
        layers.push_back(std::move(layer));
    }
    return layers;
}

std::optional<Range> read_board_range(TableReader& table, const Stock& stock) {
    const auto range = table.range_if("x_mm");
    if (range && stock.planform != nullptr) {
        const auto [tail, nose] = x_extent(*stock.planform);
        if ((*range)[1] <= tail || (*range)[0] >= nose) {
            table.wrong("x_mm", "a range of stations that reaches the board");
        }
    }
    return range;
}

} // namespace vrid
