#include "io/write/design_path.hpp"

#include <algorithm>
#include <array>

#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

using Property = DesignProperty;

struct TableKey {
    std::string table, key;
};

struct PropertyKey {
    Property property;
    const char *table, *key;
};

// Of a material's constant tells its row (material_keys).
constexpr std::array property_keys{
    PropertyKey{Property::core_scale, "core", "thickness_scale"},
    PropertyKey{Property::core_thickness, "core", "thickness_mm"},
    PropertyKey{Property::layer_angle, "layer", "angle_deg"},
    PropertyKey{Property::layer_thickness, "layer", "thickness_mm"},
    PropertyKey{Property::layer_weight_scale, "layer", "areal_weight_scale"},
    PropertyKey{Property::fibre_fraction, "fabric", "fibre_volume_fraction"},
    PropertyKey{Property::resin, "mass_only", "resin_gsm"},
    PropertyKey{Property::cure_stress_free, "cure", "stress_free_C"},
    PropertyKey{Property::cure_moisture, "cure", "moisture_percent"},
    PropertyKey{Property::running_length, "planform", "running_length_mm"},
    PropertyKey{Property::waist_width, "planform", "waist_width_mm"},
    PropertyKey{Property::waist_x, "planform", "waist_x_mm"},
    PropertyKey{Property::nose_width, "planform", "nose_width_mm"},
    PropertyKey{Property::nose_length, "planform", "nose_length_mm"},
    PropertyKey{Property::nose_fullness, "planform", "nose_fullness"},
    PropertyKey{Property::tail_width, "planform", "tail_width_mm"},
    PropertyKey{Property::tail_length, "planform", "tail_length_mm"},
    PropertyKey{Property::tail_fullness, "planform", "tail_fullness"},
    PropertyKey{Property::rectangle, "planform", "rectangle_mm"},
    PropertyKey{Property::edge_width, "edge", "width_mm"},
    PropertyKey{Property::edge_x, "edge", "x_mm"},
    PropertyKey{Property::flange_width, "edge.flange", "width_mm"},
    PropertyKey{Property::sidewall_width, "sidewall", "width_mm"},
    PropertyKey{Property::sidewall_x, "sidewall", "x_mm"},
    PropertyKey{Property::zone_outline, "layer.zone", "outline_mm"},
    PropertyKey{Property::zones_outline, "layer.zone", "outline_mm"},
    PropertyKey{Property::zone_x, "layer.zone", "x_mm"},
    PropertyKey{Property::zones_x, "layer.zone", "x_mm"},
    PropertyKey{Property::zone_y, "layer.zone", "y_mm"},
    PropertyKey{Property::zones_y, "layer.zone", "y_mm"},
    PropertyKey{Property::stance_width, "stance", "width_mm"},
    PropertyKey{Property::stance_setback, "stance", "setback_mm"},
    PropertyKey{Property::foot_length, "stance", "foot_length_mm"},
    PropertyKey{Property::foot_width, "stance", "foot_width_mm"},
    PropertyKey{Property::tip_spacer_x, "tip_spacer", "x_mm"},
    PropertyKey{Property::core_station, "core", "station_mm"},
    PropertyKey{Property::rest_station, "rest_shape", "station_mm"},
    PropertyKey{Property::mould_station, "cure", "mould_mm"},
};

TableKey table_key(const DesignKind& kind) {
    if (kind.constant != nullptr) {
        return {"material", std::string(kind.constant->key)};
    }
    const PropertyKey& row =
        *std::ranges::find(property_keys, kind.property, &PropertyKey::property);
    return {row.table, row.key};
}

bool of_several_zones(const DesignKind& kind) {
    return kind.property == DesignProperty::zones_outline ||
           kind.property == DesignProperty::zones_x || kind.property == DesignProperty::zones_y;
}

std::string in_brackets(std::size_t index) {
    return "[" + std::to_string(index) + "]";
}

// "layer.NAME.zone.x_mm[0]", "layer.NAME.zones[2].x_mm[0]".
std::string zone_path(const DesignId& id, const std::string& key) {
    const bool several = of_several_zones(*id.kind);
    return "layer." + id.part + (several ? ".zones" + in_brackets(id.index / 2) : ".zone") + "." +
           key + in_brackets(id.index % 2);
}

} // namespace

std::string range_of(const DesignKind& kind) {
    const TableKey in_file = table_key(kind);
    return in_file.table + "." + in_file.key;
}

std::string file_unit_name(const DesignId& id) {
    return std::string(file_unit(range_of(*id.kind)).name);
}

double to_si(const DesignId& id, double value) {
    return to_si(range_of(*id.kind), value);
}

double from_si(const DesignId& id, double value) {
    return from_si(range_of(*id.kind), value);
}

std::string path_of(const DesignId& id) {
    const TableKey in_file = table_key(*id.kind);
    if (in_file.table == "layer.zone") {
        return zone_path(id, in_file.key);
    }
    const std::string path =
        in_file.table + "." + (id.part.empty() ? "" : id.part + ".") + in_file.key;
    return id.kind->form == DesignForm::station ? path + in_brackets(id.index) : path;
}

std::vector<std::string> kind_patterns() {
    std::vector<std::string> all;
    const auto add = [&](const DesignKind& kind) {
        std::string table = table_key(kind).table;
        for (const std::string named : {"layer", "fabric", "material"}) {
            if (table.starts_with(named)) {
                table.insert(named.size(), ".*");
            }
        }
        add_once(all, table + "." + table_key(kind).key);
    };
    for (int i = 0; i <= static_cast<int>(DesignProperty::mould_station); ++i) {
        if (const auto property = DesignProperty{i}; property != DesignProperty::constant) {
            add({property});
        }
    }
    for (const bool isotropic : {true, false}) {
        for (const MaterialKey& key : material_keys(isotropic)) {
            add({DesignProperty::constant, &key});
        }
    }
    return all;
}

} // namespace vrid
