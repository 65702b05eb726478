#include "io/write/design_path.hpp"

#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

struct TableKey {
    std::string table, key;
};

// Of what moves lines of the mesh.
TableKey line_key(DesignProperty property) {
    switch (property) {
    case DesignProperty::running_length:
        return {"planform", "running_length_mm"};
    case DesignProperty::waist_width:
        return {"planform", "waist_width_mm"};
    case DesignProperty::waist_x:
        return {"planform", "waist_x_mm"};
    case DesignProperty::nose_width:
        return {"planform", "nose_width_mm"};
    case DesignProperty::nose_length:
        return {"planform", "nose_length_mm"};
    case DesignProperty::nose_fullness:
        return {"planform", "nose_fullness"};
    case DesignProperty::tail_width:
        return {"planform", "tail_width_mm"};
    case DesignProperty::tail_length:
        return {"planform", "tail_length_mm"};
    case DesignProperty::tail_fullness:
        return {"planform", "tail_fullness"};
    case DesignProperty::rectangle:
        return {"planform", "rectangle_mm"};
    case DesignProperty::edge_width:
        return {"edge", "width_mm"};
    case DesignProperty::edge_x:
        return {"edge", "x_mm"};
    case DesignProperty::flange_width:
        return {"edge.flange", "width_mm"};
    case DesignProperty::sidewall_width:
        return {"sidewall", "width_mm"};
    case DesignProperty::sidewall_x:
        return {"sidewall", "x_mm"};
    case DesignProperty::zone_outline:
    case DesignProperty::zones_outline:
        return {"layer.zone", "outline_mm"};
    case DesignProperty::zone_x:
    case DesignProperty::zones_x:
        return {"layer.zone", "x_mm"};
    case DesignProperty::zone_y:
    case DesignProperty::zones_y:
        return {"layer.zone", "y_mm"};
    case DesignProperty::stance_width:
        return {"stance", "width_mm"};
    case DesignProperty::stance_setback:
        return {"stance", "setback_mm"};
    case DesignProperty::foot_length:
        return {"stance", "foot_length_mm"};
    case DesignProperty::foot_width:
        return {"stance", "foot_width_mm"};
    case DesignProperty::tip_spacer_x:
        return {"tip_spacer", "x_mm"};
    case DesignProperty::rest_station:
        return {"rest_shape", "station_mm"};
    case DesignProperty::mould_station:
        return {"cure", "mould_mm"};
    default:
        break;
    }
    return {"core", "station_mm"};
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

TableKey table_key(const DesignKind& kind) {
    switch (kind.property) {
    case DesignProperty::core_scale:
        return {"core", "thickness_scale"};
    case DesignProperty::core_thickness:
        return {"core", "thickness_mm"};
    case DesignProperty::layer_angle:
        return {"layer", "angle_deg"};
    case DesignProperty::layer_thickness:
        return {"layer", "thickness_mm"};
    case DesignProperty::layer_weight_scale:
        return {"layer", "areal_weight_scale"};
    case DesignProperty::fibre_fraction:
        return {"fabric", "fibre_volume_fraction"};
    case DesignProperty::resin:
        return {"mass_only", "resin_gsm"};
    case DesignProperty::cure_stress_free:
        return {"cure", "stress_free_C"};
    case DesignProperty::cure_moisture:
        return {"cure", "moisture_percent"};
    case DesignProperty::constant:
        break;
    default:
        return line_key(kind.property);
    }
    return {"material", std::string(kind.constant->key)};
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
