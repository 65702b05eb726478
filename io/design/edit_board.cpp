#include "io/design/edit_board.hpp"

#include <map>
#include <stdexcept>

#include "io/design/board_draft.hpp"
#include "io/design/board_tables.hpp"
#include "io/write/units.hpp"
#include "mesh/board/material_keys.hpp"

namespace vrid {

namespace {

/// The board of the file, the board asked for, and the file on the way from one to the other.
struct Work {
    const MaterialLibrary& library;
    const NamedBoard& was;
    const Board& base; ///< asked for, but no fabric scaled yet
    Board wanted;      ///< asked for; fabrics get the names they have in the file
    BoardDraft draft;

    [[nodiscard]] DraftTable root() const { return {&draft.root, false}; }
    [[nodiscard]] std::optional<DraftTable> entry(const char* outer,
                                                  const std::string& name) const {
        const auto table = table_in(root(), outer);
        return table ? table_in(*table, name) : std::nullopt;
    }
};

bool is_scale(const Change& change) {
    return change.path.starts_with("layer.") && change.path.ends_with(".areal_weight_scale");
}

void edit_core(Work& work) {
    if (!work.wanted.core) {
        return;
    }
    const toml::array& stations = *work.draft.root["core"]["thickness_mm"].as_array();
    const auto& thickness = work.wanted.core->thickness.value;
    for (std::size_t i = 0; i < thickness.size(); ++i) {
        if (thickness[i] != work.was.board.core->thickness.value[i]) {
            set_number(work.draft, *stations[i].as_array()->get(1),
                       from_si("thickness_mm", thickness[i]));
        }
    }
}

void edit_layers(Work& work) {
    const auto tables = tables_in(work.root(), "layer");
    for (std::size_t i = 0; i < tables.size(); ++i) {
        const Layer& was = work.was.board.layers[i];
        const Layer& wanted = work.wanted.layers[i];
        if (wanted.angle != was.angle) {
            set_number(work.draft, tables[i], "angle_deg", from_si("angle_deg", wanted.angle));
        }
        if (wanted.thickness != was.thickness) {
            set_number(work.draft, tables[i], "thickness_mm",
                       from_si("thickness_mm", wanted.thickness));
        }
        if (wanted.fabric != was.fabric) {
            set_text(work.draft, tables[i], "fabric", wanted.fabric);
        }
    }
}

void edit_fabric(Work& work, const DraftTable& table, const Fabric& was, const Fabric& wanted) {
    if (wanted.fibre_volume_fraction != was.fibre_volume_fraction) {
        set_number(work.draft, table, "fibre_volume_fraction", wanted.fibre_volume_fraction);
    }
    const auto plies = tables_in(table, "plies");
    for (std::size_t i = 0; i < plies.size(); ++i) {
        const FabricPly& ply = wanted.plies[i];
        if (ply.areal_weight != was.plies[i].areal_weight) {
            set_number(work.draft, plies[i], "areal_weight_gsm",
                       from_si("areal_weight_gsm", ply.areal_weight));
        }
        if (ply.ply_thickness != was.plies[i].ply_thickness) {
            set_number(work.draft, plies[i], "ply_thickness_mm",
                       from_si("ply_thickness_mm", ply.ply_thickness));
        }
    }
}

double weight_ratio(const Fabric& wanted, const Fabric& was) {
    const FabricPly& ply = was.plies.front();
    return ply.areal_weight > 0 ? wanted.plies.front().areal_weight / ply.areal_weight
                                : wanted.plies.front().ply_thickness / ply.ply_thickness;
}

/// Where a fabric or material that is not in the file is from.
std::string beside(bool known) {
    return known ? "the library" : "the included file";
}

/// Adds a fabric that is like another one but for some numbers.
void add_fabric(Work& work, const Fabric& wanted, const Fabric& model) {
    std::string what;
    if (const double ratio = weight_ratio(wanted, model); !same_plies(wanted, model)) {
        what = "areal weights x " + file_number(ratio);
    }
    if (wanted.fibre_volume_fraction != model.fibre_volume_fraction) {
        what += (what.empty() ? "" : " and ") + std::string("fibre_volume_fraction ") +
                file_number(wanted.fibre_volume_fraction) + " instead of " +
                file_number(model.fibre_volume_fraction);
    }
    const bool of_file = work.entry("fabric", model.name).has_value();
    const std::string from =
        of_file ? "this file" : beside(work.library.fabrics.contains(model.name));
    add_table(work.draft, "fabric",
              model.name + " of " + from + " with " + what + "; the rest is as there.",
              fabric_table(wanted));
}

void edit_fabrics(Work& work) {
    std::map<std::string, std::string> models; // by the fabric's name: what it is made from
    for (std::size_t i = 0; i < work.wanted.layers.size(); ++i) {
        if (work.wanted.layers[i].kind == LayerKind::fabric) {
            models[work.wanted.layers[i].fabric] = work.base.layers[i].fabric;
        }
    }
    for (const auto& [name, model] : models) {
        const Fabric& wanted = work.wanted.fabrics.at(name);
        const Fabric& was = work.was.named.fabrics.at(model);
        if (const auto table = work.entry("fabric", name)) {
            edit_fabric(work, *table, was, wanted);
        } else if (name != model || !same_plies(wanted, was) ||
                   wanted.fibre_volume_fraction != was.fibre_volume_fraction) {
            add_fabric(work, wanted, was);
        }
    }
}

double value_of(const Material& material, const MaterialKey& key) {
    return key.strength != nullptr   ? (material.strengths.*key.strength).value_or(0)
           : key.optional != nullptr ? (material.*key.optional).value_or(0)
                                     : material.*key.value;
}

/// The keys whose values differ.
std::vector<MaterialKey> changed_keys(const Material& was, const Material& wanted) {
    std::vector<MaterialKey> changed;
    for (const MaterialKey& key : material_keys(was.isotropic)) {
        if (!key.follows && value_of(was, key) != value_of(wanted, key)) {
            changed.push_back(key);
        }
    }
    return changed;
}

void edit_material(Work& work, const DraftTable& table, const Material& was,
                   const Material& wanted) {
    bool expansion = false;
    for (const MaterialKey& key : changed_keys(was, wanted)) {
        const std::string name(key.key);
        expansion = expansion || name.starts_with("alpha");
        set_number(work.draft, table, name, from_si(name, value_of(wanted, key)));
    }
    if (expansion && !was.isotropic) { // the reader wants both
        for (const char* key : {"alpha1_1e6K", "alpha2_1e6K"}) {
            const double value = key[5] == '1' ? wanted.alpha1 : wanted.alpha2;
            if (!table.table->contains(key) && (key[5] == '1' ? was.alpha1 : was.alpha2) == value) {
                set_number(work.draft, table, key, from_si(key, value));
            }
        }
    }
}

void add_material(Work& work, const Material& was, Material wanted) {
    const std::string from = beside(work.library.materials.contains(was.name));
    std::string what;
    for (const MaterialKey& key : changed_keys(was, wanted)) {
        const std::string name(key.key);
        const std::string old = file_number(from_si(name, value_of(was, key)));
        what += (what.empty() ? "" : ", ") + name + " " +
                file_number(from_si(name, value_of(wanted, key))) + " instead of " + old;
        if (wanted.source.contains(name)) {
            wanted.source[name] = "changed here; " + from + " has " + old;
        }
    }
    add_table(work.draft, "material",
              was.name + " of " + from + " with " + what + "; the rest is as there.",
              material_table(wanted));
}

void edit_materials(Work& work) {
    for (const auto& [name, wanted] : work.wanted.materials) {
        const Material& was = work.was.named.materials.at(name);
        if (changed_keys(was, wanted).empty()) {
            continue;
        }
        if (const auto table = work.entry("material", name)) {
            edit_material(work, *table, was, wanted);
        } else {
            add_material(work, was, wanted);
        }
    }
}

void edit_mass_only(Work& work) {
    if (work.wanted.mass_only.resin == work.was.board.mass_only.resin) {
        return;
    }
    const double value = from_si("resin_gsm", work.wanted.mass_only.resin);
    if (const auto table = table_in(work.root(), "mass_only")) {
        set_number(work.draft, *table, "resin_gsm", value);
    } else {
        add_table(work.draft, "mass_only", "",
                  "[mass_only]\nresin_gsm = " + file_number(value) + "\n");
    }
}

// Only a board with a [cure] has such values.
void edit_cure(Work& work) {
    const auto table = table_in(work.root(), "cure");
    if (!work.wanted.cure || !work.was.board.cure || !table) {
        return;
    }
    const Cure& was = *work.was.board.cure;
    const Cure& wanted = *work.wanted.cure;
    if (wanted.stress_free != was.stress_free) {
        set_number(work.draft, *table, "stress_free_C", wanted.stress_free);
    }
    if (wanted.moisture != was.moisture) {
        set_number(work.draft, *table, "moisture_percent",
                   from_si("moisture_percent", wanted.moisture));
    }
}

} // namespace

std::string edit_board(const BoardText& source, const MaterialLibrary& library,
                       const std::vector<Change>& changes) {
    const NamedBoard was = read_named_board(source, library);
    std::vector<Change> unscaled;
    for (const Change& change : changes) {
        if (!is_scale(change)) {
            unscaled.push_back(change);
        }
    }
    Board base = was.board;
    apply_changes(base, unscaled, was.named);
    Board asked = was.board;
    apply_changes(asked, changes, was.named);
    Work work{library, was, base, asked, board_draft(source.text, source.file)};
    name_scaled_fabrics(work.wanted, {was, base, [&](const std::string& fabric) {
                                          return work.entry("fabric", fabric).has_value();
                                      }});
    edit_lines(work.draft, was.board, asked);
    edit_core(work);
    edit_layers(work);
    edit_fabrics(work);
    edit_materials(work);
    edit_mass_only(work);
    edit_cure(work);
    std::string text = finished(work.draft);
    const Board again = read_board_text({text, source.file, source.folder}, library);
    if (const std::string place = section_difference(again, asked); !place.empty()) {
        throw std::logic_error("edit_board: read again, " + place + " is not what was asked for");
    }
    return text;
}

} // namespace vrid
