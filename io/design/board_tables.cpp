#include "io/design/board_tables.hpp"

#include <algorithm>
#include <optional>

#include "io/write/design_path.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/material_keys.hpp"
#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

std::string key_text(const std::string& name) {
    constexpr const char* bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-";
    return name.find_first_not_of(bare) == std::string::npos && !name.empty() ? name : quoted(name);
}

std::string number_line(const std::string& key, double si) {
    return key + " = " + file_number(from_si(key, si)) + "\n";
}

std::string note_line(const std::string& note) {
    return note.empty() ? "" : "note = " + quoted(note) + "\n";
}

std::string ply_text(const FabricPly& ply) {
    const std::string angle = "angle_deg = " + file_number(from_si("angle_deg", ply.angle));
    if (!ply.ply_material.empty()) {
        return "{ ply_material = " + quoted(ply.ply_material) + ", " + angle +
               ", ply_thickness_mm = " +
               file_number(from_si("ply_thickness_mm", ply.ply_thickness)) + " }";
    }
    return "{ fibre = " + quoted(ply.fibre) + ", " + angle +
           ", areal_weight_gsm = " + file_number(from_si("areal_weight_gsm", ply.areal_weight)) +
           " }";
}

using Property = DesignProperty;

// Where a value stands in the file: a key of a table, or a number in its array.
struct Stand {
    std::optional<DraftTable> table;
    std::string key;
    std::optional<std::size_t> entry; ///< of the array
    bool of_pair = false;             ///< the first number of the entry, which is a pair
};

std::optional<DraftTable> inner_table(const DraftTable& root, const std::string& path) {
    const auto dot = path.find('.');
    const auto outer = table_in(root, path.substr(0, dot));
    return outer && dot != std::string::npos ? table_in(*outer, path.substr(dot + 1)) : outer;
}

Stand stand_of(const DraftTable& root, const Board& board, const DesignId& id) {
    const std::string range = range_of(*id.kind);
    const auto dot = range.rfind('.');
    const std::string table = range.substr(0, dot);
    const std::string key = range.substr(dot + 1);
    if (id.kind->property == Property::core_station) {
        return {table_in(root, "core"), "thickness_mm", id.index, true};
    }
    if (id.kind->property == Property::rest_station) {
        return {table_in(root, "rest_shape"), "z_mm", id.index, true};
    }
    if (id.kind->property == Property::mould_station) {
        return {table_in(root, "cure"), "mould_z_mm", id.index, true};
    }
    if (table != "layer.zone") {
        const bool row = id.kind->form == DesignForm::station;
        return {inner_table(root, table), key, row ? std::optional(id.index) : std::nullopt};
    }
    const auto layer = std::ranges::find(board.layers, id.part, &Layer::name);
    const auto layers = tables_in(root, "layer");
    const auto place = static_cast<std::size_t>(layer - board.layers.begin());
    if (place >= layers.size()) {
        return {};
    }
    const auto zones = tables_in(layers[place], "zones");
    const auto zone = id.index / 2 < zones.size() ? std::optional(zones[id.index / 2])
                                                  : table_in(layers[place], "zone");
    return {zone, key, id.index % 2};
}

const toml::node* node_of(const Stand& stand) {
    const toml::node* node = stand.table ? stand.table->table->get(stand.key) : nullptr;
    const auto entry_of = [](const toml::node* of, std::size_t entry) -> const toml::node* {
        const toml::array* array = of != nullptr ? of->as_array() : nullptr;
        return array != nullptr ? array->get(entry) : nullptr;
    };
    if (stand.entry) {
        node = entry_of(node, *stand.entry);
    }
    return stand.of_pair ? entry_of(node, 0) : node;
}

} // namespace

std::string material_table(const Material& material) {
    const std::string header = "material." + key_text(material.name);
    std::string text = "[" + header + "]\n" + note_line(material.note);
    bool along = false;
    bool across = false;
    for (const MaterialValue& value : material_values(material)) {
        along = along || value.key == "alpha1_1e6K";
        across = across || value.key == "alpha2_1e6K";
        text += number_line(value.key, value.value);
    }
    if (material.E3) {
        text += number_line("E3_GPa", *material.E3);
    }
    if (along != across && !material.isotropic) { // the reader wants both
        text += along ? number_line("alpha2_1e6K", material.alpha2)
                      : number_line("alpha1_1e6K", material.alpha1);
    }
    if (!material.source.empty()) {
        text += "\n[" + header + ".source]\n";
        for (const auto& [key, source] : material.source) {
            text.append(key).append(" = ").append(quoted(source)).append("\n");
        }
    }
    return text;
}

std::string fabric_table(const Fabric& fabric) {
    std::string text = "[fabric." + key_text(fabric.name) + "]\n" + note_line(fabric.note);
    if (!fabric.resin.empty()) {
        text += "resin = " + quoted(fabric.resin) + "\n";
    }
    if (fabric.fibre_volume_fraction > 0) {
        text += number_line("fibre_volume_fraction", fabric.fibre_volume_fraction);
    }
    if (fabric.roll_width > 0) {
        text += number_line("roll_width_mm", fabric.roll_width);
    }
    if (!fabric.strengths_of.empty()) {
        text += "strengths_of = " + quoted(fabric.strengths_of) + "\n";
    }
    text += "plies = [\n";
    for (const FabricPly& ply : fabric.plies) {
        text += "  " + ply_text(ply) + ",\n";
    }
    return text + "]\n";
}

void edit_lines(BoardDraft& draft, const Board& was, const Board& wanted) {
    Board before = was; // places refer to boards that can be changed
    Board after = wanted;
    std::vector<DesignPlace> old;
    std::vector<DesignPlace> fresh;
    add_line_places(before, old);
    add_line_places(after, fresh);
    const DraftTable root{&draft.root, false};
    for (std::size_t i = 0; i < std::min(old.size(), fresh.size()); ++i) {
        const double value = *value_now(fresh[i]);
        if (value == *value_now(old[i])) {
            continue;
        }
        const Stand stand = stand_of(root, was, old[i].id);
        const double shown = from_si(old[i].id, value);
        const toml::node* node = node_of(stand);
        if (node != nullptr && node->is_number()) {
            set_number(draft, *node, shown);
        } else if (stand.table && !stand.entry && node == nullptr) {
            set_number(draft, *stand.table, stand.key, shown);
        } else {
            throw InputError(path_of(old[i].id), "the file itself has no such number to change");
        }
    }
}

} // namespace vrid
