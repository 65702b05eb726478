#include "io/materials/read_material.hpp"

#include "io/toml/fault_words.hpp"
#include "mesh/board/check_board.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/material_keys.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

void read_values(Material& material, TableReader& table) {
    for (const MaterialKey& key : material_keys(material.isotropic)) {
        if (key.strength != nullptr) {
            material.strengths.*key.strength = table.number_if(key.key);
        } else if (key.optional != nullptr) {
            material.*key.optional = table.number_if(key.key);
        } else if (key.required) {
            material.*key.value = table.number(key.key);
        } else {
            material.*key.value = table.number_or(key.key, key.otherwise);
        }
    }
}

/// Through the thickness; of cores, for wrinkling.
void read_E3(Material& material, TableReader& table) {
    if (material.isotropic) {
        table.refuse("E3_GPa", "an isotropic material has E_GPa in every direction");
    } else {
        material.E3 = table.number_if("E3_GPa");
    }
}

void check_expansions_together(TableReader& table) {
    if (table.has("alpha1_1e6K") != table.has("alpha2_1e6K")) {
        table.problem(table.has("alpha1_1e6K") ? "alpha1_1e6K" : "alpha2_1e6K",
                      "alpha1_1e6K and alpha2_1e6K must be given together");
    }
}

// A source of its own for a key, else the one for all.
void read_sources(Material& material, TableReader& table) {
    auto sources = table.table_if("source");
    if (!sources) {
        return;
    }
    const std::string all = sources->text_if("all");
    for (const MaterialKey& key : material_keys(material.isotropic)) {
        const std::string name(key.key);
        std::string source = sources->text_if(key.key);
        if (!source.empty() && !table.has(key.key)) {
            sources->problem(key.key, "a source for a value that is not given");
        }
        if (source.empty()) {
            source = all;
        }
        if (!source.empty() && table.has(key.key)) {
            material.source[name] = source;
        }
    }
    if (std::string source = sources->text_if("E3_GPa"); material.E3) {
        material.source["E3_GPa"] = source.empty() ? all : source;
    }
    sources->finish();
}

FabricPly read_ply(TableReader& table, const std::map<std::string, Material>& materials) {
    FabricPly ply;
    ply.angle = table.number("angle_deg");
    if (table.has("ply_material") || table.has("ply_thickness_mm")) {
        ply.ply_material = read_name(table, "ply_material", materials, "material");
        ply.ply_thickness = table.number("ply_thickness_mm");
        table.refuse("fibre", "not accepted beside ply_material");
        table.refuse("areal_weight_gsm", "not accepted beside ply_material");
    } else {
        ply.fibre = read_name(table, "fibre", materials, "material");
        ply.areal_weight = table.number("areal_weight_gsm");
    }
    table.know({"fibre", "areal_weight_gsm", "ply_material", "ply_thickness_mm"});
    table.finish();
    return ply;
}

} // namespace

Material read_material(const std::string& name, TableReader table) {
    Material material;
    material.name = name;
    material.note = table.text_if("note");
    const bool one = table.has("E_GPa") || table.has("nu");
    const bool two = table.has("E1_GPa") || table.has("E2_GPa") || table.has("nu12");
    material.isotropic = one && !two;
    if (one && two) {
        table.refuse("E_GPa", "an orthotropic material has E1_GPa and E2_GPa instead");
        table.refuse("nu", "an orthotropic material has nu12 instead");
    }
    read_values(material, table);
    read_E3(material, table);
    if (material.isotropic) {
        table.refuse("alpha2_1e6K", "an isotropic material has only alpha1_1e6K");
        table.refuse("shrink2_percent", "an isotropic material has only shrink1_percent");
        table.refuse("swell2_percent", "an isotropic material has only swell1_percent");
        complete(material);
    } else {
        check_expansions_together(table);
    }
    read_sources(material, table);
    table.finish();
    std::vector<BoardFault> faults;
    check_material(name, material, faults);
    note_faults(table.reading(), faults);
    return material;
}

Fabric read_fabric(const std::string& name, TableReader table,
                   const std::map<std::string, Material>& materials) {
    Fabric fabric;
    fabric.name = name;
    fabric.note = table.text_if("note");
    bool by_fibre = false;
    auto plies = table.tables("plies");
    if (plies.empty()) {
        table.wrong("plies", "an array of at least one ply");
    }
    for (TableReader& ply : plies) {
        fabric.plies.push_back(read_ply(ply, materials));
        by_fibre = by_fibre || fabric.plies.back().ply_material.empty();
    }
    if (by_fibre || table.has("resin")) {
        fabric.resin = read_name(table, "resin", materials, "material");
    }
    if (by_fibre || table.has("fibre_volume_fraction")) {
        fabric.fibre_volume_fraction = table.number("fibre_volume_fraction");
    }
    if (table.has("roll_width_mm")) {
        fabric.roll_width = table.number("roll_width_mm");
    }
    if (table.has("strengths_of")) {
        fabric.strengths_of = read_name(table, "strengths_of", materials, "material");
    }
    table.know({"resin", "fibre_volume_fraction", "roll_width_mm", "strengths_of"});
    table.finish();
    std::vector<BoardFault> faults;
    check_fabric(name, fabric, materials, faults);
    note_faults(table.reading(), faults);
    return fabric;
}

template <class Entry>
std::string read_name(TableReader& table, std::string_view key,
                      const std::map<std::string, Entry>& entries, const std::string& what) {
    std::string name = table.text(key);
    if (name.empty() || entries.contains(name)) {
        return name;
    }
    const std::vector<std::string> valid =
        each_of(entries, [](const auto& entry) { return entry.first; });
    table.wrong(key, "a " + what + " of this file or of the library" + did_you_mean(name, valid));
    return name;
}

template std::string read_name(TableReader&, std::string_view,
                               const std::map<std::string, Material>&, const std::string&);
template std::string read_name(TableReader&, std::string_view, const std::map<std::string, Fabric>&,
                               const std::string&);

} // namespace vrid
