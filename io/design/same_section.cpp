#include "io/design/board_tables.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/design_path.hpp"
#include "mesh/board/material_keys.hpp"
#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

/// Compares as it goes and keeps the first difference.
struct Comparison {
    const Board& a;
    const Board& b;
    std::string first;

    void number(double x, double y, const std::string& where) {
        constexpr double rounding = 2e-11; // half a unit of the twelfth digit, and its products
        const double size = std::max(std::abs(x), std::abs(y));
        if (first.empty() && !(std::abs(x - y) <= rounding * size)) {
            first = where;
        }
    }
    void text(const std::string& x, const std::string& y, const std::string& where) {
        if (first.empty() && x != y) {
            first = where;
        }
    }
};

void compare_materials(Comparison& compare, const std::string& name_a, const std::string& name_b,
                       const std::string& where) {
    compare.text(name_a, name_b, where);
    if (!compare.first.empty() || name_a.empty()) {
        return;
    }
    const Material& a = compare.a.materials.at(name_a);
    const Material& b = compare.b.materials.at(name_b);
    compare.text(a.isotropic ? "isotropic" : "", b.isotropic ? "isotropic" : "", name_a);
    for (const MaterialKey& key : material_keys(false)) {
        const std::string path = "material." + name_a + "." + std::string(key.key);
        if (key.optional != nullptr) {
            compare.number((a.*key.optional).value_or(0), (b.*key.optional).value_or(0), path);
        } else if (key.strength != nullptr) {
            compare.number((a.strengths.*key.strength).value_or(0),
                           (b.strengths.*key.strength).value_or(0), path);
        } else {
            compare.number(a.*key.value, b.*key.value, path);
        }
    }
}

void compare_fabrics(Comparison& compare, const std::string& name_a, const std::string& name_b) {
    const Fabric& a = compare.a.fabrics.at(name_a);
    const Fabric& b = compare.b.fabrics.at(name_b);
    const std::string path = "fabric." + name_a;
    compare_materials(compare, a.resin, b.resin, path + ".resin");
    compare_materials(compare, a.strengths_of, b.strengths_of, path + ".strengths_of");
    compare.number(a.fibre_volume_fraction, b.fibre_volume_fraction,
                   path + ".fibre_volume_fraction");
    compare.number(static_cast<double>(a.plies.size()), static_cast<double>(b.plies.size()),
                   path + ".plies");
    for (std::size_t i = 0; compare.first.empty() && i < a.plies.size(); ++i) {
        const std::string ply = path + ".plies[" + std::to_string(i) + "]";
        compare_materials(compare, a.plies[i].fibre, b.plies[i].fibre, ply);
        compare_materials(compare, a.plies[i].ply_material, b.plies[i].ply_material, ply);
        compare.number(a.plies[i].angle, b.plies[i].angle, ply);
        compare.number(a.plies[i].areal_weight, b.plies[i].areal_weight, ply);
        compare.number(a.plies[i].ply_thickness, b.plies[i].ply_thickness, ply);
    }
}

void compare_layers(Comparison& compare) {
    for (std::size_t i = 0; i < compare.a.layers.size(); ++i) {
        const Layer& a = compare.a.layers[i];
        const Layer& b = compare.b.layers[i];
        const std::string path = "layer." + a.name;
        compare.number(a.angle, b.angle, path + ".angle_deg");
        compare.number(a.thickness, b.thickness, path + ".thickness_mm");
        compare_materials(compare, a.material, b.material, path);
        if (a.kind == LayerKind::fabric) {
            compare_fabrics(compare, a.fabric, b.fabric);
        }
    }
}

void compare_strips(Comparison& compare, const std::vector<Strip>& a, const std::vector<Strip>& b) {
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) {
        compare_materials(compare, a[i].material, b[i].material, "core.strips");
        if (!a[i].fill.empty() && !b[i].fill.empty()) {
            compare_materials(compare, a[i].fill, b[i].fill, "core.strips");
        }
    }
}

void compare_core(Comparison& compare) {
    if (!compare.a.core) {
        return;
    }
    for (std::size_t i = 0; i < compare.a.core->thickness.value.size(); ++i) {
        compare.number(compare.a.core->thickness.value[i], compare.b.core->thickness.value[i],
                       "core.thickness_mm[" + std::to_string(i) + "]");
    }
    const Core& a = *compare.a.core;
    const Core& b = *compare.b.core;
    compare_strips(compare, a.strips, b.strips);
    compare_strips(compare, a.strips_right, b.strips_right);
}

void compare_lines(Comparison& compare) {
    Board a = compare.a; // places refer to boards that can be changed
    Board b = compare.b;
    std::vector<DesignPlace> of_a;
    std::vector<DesignPlace> of_b;
    add_line_places(a, of_a);
    add_line_places(b, of_b);
    compare.number(static_cast<double>(of_a.size()), static_cast<double>(of_b.size()),
                   "the outline");
    for (std::size_t i = 0; compare.first.empty() && i < of_a.size(); ++i) {
        compare.number(*value_now(of_a[i]), *value_now(of_b[i]), path_of(of_a[i].id));
    }
}

// Of [cure] what is a design value.
void compare_cure(Comparison& compare) {
    compare.text(compare.a.cure ? "cure" : "", compare.b.cure ? "cure" : "", "cure");
    if (compare.a.cure && compare.b.cure) {
        compare.number(compare.a.cure->stress_free, compare.b.cure->stress_free,
                       "cure.stress_free_C");
        compare.number(compare.a.cure->moisture, compare.b.cure->moisture, "cure.moisture_percent");
    }
}

template <class Part>
void compare_part(Comparison& compare, const std::optional<Part>& a, const std::optional<Part>& b) {
    if (a && b) {
        compare_materials(compare, a->material, b->material, "material");
    }
}

} // namespace

std::string section_difference(const Board& a, const Board& b) {
    const bool alike =
        a.layers.size() == b.layers.size() && a.core.has_value() == b.core.has_value();
    if (!alike || (a.core && a.core->thickness.value.size() != b.core->thickness.value.size())) {
        return "the number of layers or stations";
    }
    Comparison compare{a, b, ""};
    compare_lines(compare);
    compare_core(compare);
    compare_layers(compare);
    compare_part(compare, a.tip_spacer, b.tip_spacer);
    compare_part(compare, a.edge, b.edge);
    compare_part(compare, a.sidewall, b.sidewall);
    compare.number(a.mass_only.resin, b.mass_only.resin, "mass_only.resin_gsm");
    compare_cure(compare);
    return compare.first;
}

} // namespace vrid
