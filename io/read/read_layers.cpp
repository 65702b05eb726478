#include "io/read/read_layers.hpp"

#include <cmath>
#include <iterator>
#include <set>

#include "io/materials/read_material.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/mirror_overlap.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

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
    const MirrorOverlap overlap = mirror_overlap(zones_of(layer), *stock.planform);
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
    if (std::vector<Zone> zones = read_zones(table, stock); !zones.empty()) {
        layer.zone = std::move(zones.front());
        layer.more_zones.assign(std::make_move_iterator(zones.begin() + 1),
                                std::make_move_iterator(zones.end()));
    }
    const bool sound = table.reading().problems.size() == problems;
    layer.mirror = table.flag_or("mirror", false);
    if (layer.mirror && !table.has("zone") && !table.has("zones")) {
        table.problem("mirror", "a layer without a zone is everywhere and has no mirror image");
    } else if (layer.mirror && sound) {
        check_mirror(layer, table, stock);
    }
    if (layer.kind == LayerKind::core && layer.mirror) {
        table.problem("mirror", "not accepted: the core is there once");
    }
    layer.inlay = table.flag_or("inlay", false);
    if (layer.kind == LayerKind::core && layer.inlay) {
        table.problem("inlay", "not accepted: the core is what a layer is let into");
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
    TableReader* inlaid = nullptr;
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
        inlaid = layer.inlay ? &table : inlaid;
        layers.push_back(std::move(layer));
    }
    if (inlaid != nullptr && !core) {
        inlaid->problem("inlay", "there is no layer with core = true to let it into");
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
