#include "io/write/design_path.hpp"

namespace vrid {

namespace {

struct TableKey {
    std::string table, key;
};

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
    }
    return {"material", std::string(kind.constant->key)};
}

} // namespace

std::string range_of(const DesignKind& kind) {
    const TableKey in_file = table_key(kind);
    return in_file.table + "." + in_file.key;
}

std::string path_of(const DesignId& id) {
    const TableKey in_file = table_key(*id.kind);
    const std::string path =
        in_file.table + "." + (id.part.empty() ? "" : id.part + ".") + in_file.key;
    return id.kind->form == DesignForm::station ? path + "[" + std::to_string(id.index) + "]"
                                                : path;
}

} // namespace vrid
