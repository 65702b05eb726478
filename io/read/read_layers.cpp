#include "io/read/read_tables.hpp"

#include <iterator>

#include "io/materials/read_material.hpp"

namespace vrid {

namespace {

// What the layer is made of: exactly one of material, fabric and core.
void read_kind(Layer& layer, TableReader& table, const Stock& stock) {
    // not true or false: that is said already, and the core is what was meant
    const bool core = table.flag_or("core", table.has("core"));
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

Layer read_layer(TableReader& table, const Stock& stock) {
    Layer layer;
    layer.name = table.text("name");
    if (!layer.name.empty()) {
        table.rename("layer." + layer.name);
    }
    read_kind(layer, table, stock);
    layer.angle = table.number_or_default("angle_deg");
    layer.flip = table.flag_or("flip", false);
    if (std::vector<Zone> zones = read_zones(table); !zones.empty()) {
        layer.zone = std::move(zones.front());
        layer.more_zones.assign(std::make_move_iterator(zones.begin() + 1),
                                std::make_move_iterator(zones.end()));
    }
    layer.mirror = table.flag_or("mirror", false);
    layer.inlay = table.flag_or("inlay", false);
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
    layers.reserve(tables.size());
    for (TableReader& table : tables) {
        layers.push_back(read_layer(table, stock));
    }
    return layers;
}

} // namespace vrid
