#include "io/design/board_tables.hpp"

#include "io/design/text_edits.hpp"
#include "io/write/units.hpp"
#include "mesh/board/material_keys.hpp"

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

} // namespace vrid
