#include "io/materials/materials_text.hpp"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <sstream>
#include <vector>

#include "io/toml/accepted.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/material_keys.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

// A value as the file writes it; twelve digits drop the rounding of the way to SI and back.
double file_value(std::string_view key, double si) {
    const double value = from_si(key, si);
    if (value == 0) {
        return 0;
    }
    const double scale = std::pow(10.0, 11 - std::floor(std::log10(std::abs(value))));
    return std::round(value * scale) / scale;
}

std::string source_of(const Material& material, const std::string& key) {
    const auto found = material.source.find(key);
    return found == material.source.end() ? "" : found->second;
}

void check_name(const MaterialLibrary& library, const std::string& name) {
    if (library.materials.contains(name) || library.fabrics.contains(name)) {
        return;
    }
    std::vector<std::string> valid =
        each_of(library.materials, [](const auto& entry) { return entry.first; });
    for (const auto& entry : library.fabrics) {
        valid.push_back(entry.first);
    }
    throw InputError("materials", "found '" + name +
                                      "'; accepted: a material or fabric of the library" +
                                      did_you_mean(name, valid));
}

// Rows in columns; the last column is not padded.
std::string in_columns(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> width;
    for (const auto& row : rows) {
        width.resize(std::max(width.size(), row.size()), 0);
        for (std::size_t i = 0; i < row.size(); ++i) {
            width[i] = std::max(width[i], row[i].size());
        }
    }
    std::ostringstream text;
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            text << (i == 0 ? "" : "  ");
            if (i + 1 < row.size()) {
                text << std::left << std::setw(static_cast<int>(width[i]));
            }
            text << row[i];
        }
        text << "\n";
    }
    return text.str();
}

std::string shown(std::string_view key, double si) {
    return number_text(file_value(key, si));
}

std::string one_material(const Material& material) {
    std::vector<std::vector<std::string>> rows;
    for (const MaterialValue& value : material_values(material)) {
        rows.push_back({value.key, shown(value.key, value.value),
                        std::string(file_unit(value.key).name), source_of(material, value.key)});
    }
    return material.name + ": " + material.note + "\n" + in_columns(rows);
}

std::string one_fabric(const Fabric& fabric) {
    std::vector<std::vector<std::string>> rows;
    for (const FabricPly& ply : fabric.plies) {
        const std::string amount = ply.fibre.empty() ? shown("_mm", ply.ply_thickness) + " mm"
                                                     : shown("_gsm", ply.areal_weight) + " g/m2";
        rows.push_back({ply.fibre.empty() ? ply.ply_material : ply.fibre,
                        shown("_deg", ply.angle) + " deg", amount});
    }
    std::string text = fabric.name + ": " + fabric.note + "\n";
    if (!fabric.strengths_of.empty()) {
        text += "strengths of " + fabric.strengths_of + "\n";
    }
    if (!fabric.resin.empty()) {
        text += "resin " + fabric.resin + ", fibre volume fraction " +
                number_text(fabric.fibre_volume_fraction) + "\n";
    }
    return text + "plies upwards:\n" + in_columns(rows);
}

std::string tolerance_value(const std::string& path, const ToleranceEntry& entry) {
    const std::string unit = entry.percent ? "%" : std::string(file_unit(path).name);
    return number_text(entry.value) + (unit.empty() ? "" : " " + unit);
}

std::string default_tolerances(const MaterialLibrary& library) {
    std::vector<std::vector<std::string>> rows{{"standard deviation of", "", "source"}};
    for (const auto& [path, entry] : library.tolerance) {
        rows.push_back({path, tolerance_value(path, entry), entry.source});
    }
    return rows.size() == 1 ? "" : "\n" + in_columns(rows);
}

std::string all_entries(const MaterialLibrary& library) {
    std::vector<std::vector<std::string>> rows{
        {"material", "E1 GPa", "E2 GPa", "nu12", "G12 GPa", "kg/m3", "what it is"}};
    for (const auto& [name, material] : library.materials) {
        rows.push_back({name, shown("_GPa", material.E1), shown("_GPa", material.E2),
                        number_text(material.nu12), shown("_GPa", material.G12),
                        number_text(material.density), material.note});
    }
    std::vector<std::vector<std::string>> fabrics{{"fabric", "what it is"}};
    for (const auto& [name, fabric] : library.fabrics) {
        fabrics.push_back({name, fabric.note});
    }
    std::string text = in_columns(rows);
    if (!library.fabrics.empty()) {
        text.append("\n").append(in_columns(fabrics));
    }
    text += default_tolerances(library);
    return text + "\nThe name of one shows its values with their sources.\n";
}

Json material_json(const Material& material) {
    Json values = Json::object();
    for (const MaterialValue& value : material_values(material)) {
        values[value.key] = {{"value", file_value(value.key, value.value)},
                             {"unit", file_unit(value.key).name},
                             {"source", source_of(material, value.key)}};
    }
    return {{"name", material.name}, {"note", material.note}, {"values", values}};
}

Json fabric_json(const Fabric& fabric) {
    Json plies = Json::array();
    for (const FabricPly& ply : fabric.plies) {
        Json entry{{"angle_deg", file_value("angle_deg", ply.angle)}};
        if (ply.fibre.empty()) {
            entry["ply_material"] = ply.ply_material;
            entry["ply_thickness_mm"] = file_value("ply_thickness_mm", ply.ply_thickness);
        } else {
            entry["fibre"] = ply.fibre;
            entry["areal_weight_gsm"] = file_value("areal_weight_gsm", ply.areal_weight);
        }
        plies.push_back(entry);
    }
    Json json{{"name", fabric.name}, {"note", fabric.note}};
    if (!fabric.resin.empty()) {
        json["resin"] = fabric.resin;
        json["fibre_volume_fraction"] = fabric.fibre_volume_fraction;
    }
    if (!fabric.strengths_of.empty()) {
        json["strengths_of"] = fabric.strengths_of;
    }
    json["plies"] = plies;
    return json;
}

} // namespace

std::string materials_text(const MaterialLibrary& library, const std::optional<std::string>& name) {
    if (!name) {
        return all_entries(library);
    }
    check_name(library, *name);
    const auto material = library.materials.find(*name);
    return material != library.materials.end() ? one_material(material->second)
                                               : one_fabric(library.fabrics.at(*name));
}

std::string materials_json(const MaterialLibrary& library, const std::optional<std::string>& name) {
    if (name) {
        check_name(library, *name);
    }
    Json materials = Json::array();
    Json fabrics = Json::array();
    for (const auto& [key, material] : library.materials) {
        if (!name || *name == key) {
            materials.push_back(material_json(material));
        }
    }
    for (const auto& [key, fabric] : library.fabrics) {
        if (!name || *name == key) {
            fabrics.push_back(fabric_json(fabric));
        }
    }
    Json all{{"format", 1}, {"materials", materials}, {"fabrics", fabrics}};
    for (const auto& [path, entry] : library.tolerance) {
        if (!name) {
            all["tolerances"].push_back(
                {{"path", path},
                 {"value", entry.value},
                 {"unit", entry.percent ? "%" : std::string(file_unit(path).name)},
                 {"source", entry.source}});
        }
    }
    return json_text(all);
}

} // namespace vrid
