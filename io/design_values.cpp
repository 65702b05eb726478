#include "io/design_values.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "io/accepted.hpp"
#include "io/design_paths.hpp"
#include "io/material_keys.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

enum Order : int { fabrics_first, then_values, scales_last };

/// One place of a board that can be set.
struct DesignValue {
    std::string path;
    std::string range; ///< its key in accepted.hpp; empty: the name of a fabric
    Order order = then_values;
    std::function<void(double si)> set;
    std::function<void(const std::string& name)> name;
};

using DesignValues = std::vector<DesignValue>;

void add_core(Board& board, DesignValues& all) {
    if (!board.core) {
        return;
    }
    auto& thickness = board.core->thickness.value;
    all.push_back({"core.thickness_scale", "core.thickness_scale", scales_last,
                   [&thickness](double factor) {
                       for (double& value : thickness) {
                           value *= factor;
                       }
                   },
                   nullptr});
    for (std::size_t i = 0; i < thickness.size(); ++i) {
        all.push_back({"core.thickness_mm[" + std::to_string(i) + "]", "core.thickness_mm",
                       then_values, [&thickness, i](double value) { thickness[i] = value; },
                       nullptr});
    }
}

/// Fabrics are shared by name: a layer that differs gets a fabric of its own.
void scale_weight(Board& board, Layer& layer, double factor) {
    Fabric own = board.fabrics.at(layer.fabric);
    for (FabricPly& ply : own.plies) {
        ply.areal_weight *= factor;
        ply.ply_thickness *= factor;
    }
    own.name = layer.fabric + " x " + number_text(factor) + " (" + layer.name + ")";
    layer.fabric = own.name;
    board.fabrics[own.name] = own;
}

void keep(Board& board, const MaterialLibrary& named, const std::string& material) {
    if (const auto found = named.materials.find(material); found != named.materials.end()) {
        board.materials.insert(*found); // one that is there may have been changed already
    }
}

void take_fabric(Board& board, Layer& layer, const MaterialLibrary& named,
                 const std::string& name) {
    const Fabric& fabric = named.fabrics.at(name);
    board.fabrics.emplace(name, fabric);
    keep(board, named, fabric.resin);
    for (const FabricPly& ply : fabric.plies) {
        keep(board, named, ply.fibre);
        keep(board, named, ply.ply_material);
    }
    layer.fabric = name;
}

void add_layers(Board& board, const MaterialLibrary& named, DesignValues& all) {
    for (Layer& layer : board.layers) {
        const std::string path = "layer." + layer.name;
        all.push_back({path + ".angle_deg", "layer.angle_deg", then_values,
                       [&layer](double value) { layer.angle = value; }, nullptr});
        if (layer.kind == LayerKind::material) {
            all.push_back({path + ".thickness_mm", "layer.thickness_mm", then_values,
                           [&layer](double value) { layer.thickness = value; }, nullptr});
        } else if (layer.kind == LayerKind::fabric) {
            all.push_back({path + ".areal_weight_scale", "layer.areal_weight_scale", scales_last,
                           [&board, &layer](double factor) { scale_weight(board, layer, factor); },
                           nullptr});
            all.push_back(
                {path + ".fabric", "", fabrics_first, nullptr,
                 [&](const std::string& name) { take_fabric(board, layer, named, name); }});
        }
    }
}

/// An isotropic material has one modulus: the others follow from it.
void complete(Material& material) {
    if (material.isotropic) {
        material.E2 = material.E1;
        material.G12 = material.G13 = material.G23 = material.E1 / (2 * (1 + material.nu12));
        material.alpha2 = material.alpha1;
    }
}

void add_materials(Board& board, DesignValues& all) {
    for (auto& [name, fabric] : board.fabrics) {
        if (!fabric.resin.empty()) {
            all.push_back({"fabric." + name + ".fibre_volume_fraction",
                           "fabric.fibre_volume_fraction", then_values,
                           [&fabric = fabric](double v) { fabric.fibre_volume_fraction = v; },
                           nullptr});
        }
    }
    for (auto& [name, material] : board.materials) {
        for (const MaterialKey& key : material_keys(material.isotropic)) {
            const std::string word(key.key);
            if (material.isotropic && word == "alpha2_1e6K") {
                continue;
            }
            all.push_back({"material." + name + "." + word, "material." + word, then_values,
                           [&material = material, key](double value) {
                               if (key.strength != nullptr) {
                                   material.strengths.*key.strength = value;
                               } else {
                                   material.*key.value = value;
                               }
                               complete(material);
                           },
                           nullptr});
        }
    }
}

DesignValues design_values(Board& board, const MaterialLibrary& named) {
    DesignValues all;
    add_core(board, all);
    add_layers(board, named, all);
    add_materials(board, all);
    all.push_back({"mass_only.resin_gsm", "mass_only.resin_gsm", then_values,
                   [&board](double value) { board.mass_only.resin = value; }, nullptr});
    return all;
}

std::vector<std::string> names(const DesignValues& values) {
    std::vector<std::string> all;
    all.reserve(values.size());
    for (const DesignValue& value : values) {
        all.push_back(value.path);
    }
    std::sort(all.begin(), all.end());
    return all;
}

/// What is wrong with the change; nothing: it is made.
std::string unknown_path(const std::string& path, const DesignValues& values) {
    const auto starts = [&](const char* table) { return path.starts_with(table); };
    if (starts("planform.") || starts("edge.") || starts("sidewall.") || starts("stance.") ||
        starts("tip_spacer.")) {
        return "moves lines of the mesh and cannot be set here; write a board file of its own";
    }
    return "no design value of this board" + did_you_mean(path, names(values));
}

std::string set_name(const DesignValue& place, const Change& change, const MaterialLibrary& named) {
    const auto* name = std::get_if<std::string>(&change.value);
    if (name == nullptr) {
        return "accepted: the name of a fabric, in quotes";
    }
    if (!named.fabrics.contains(*name)) {
        std::vector<std::string> valid;
        for (const auto& entry : named.fabrics) {
            valid.push_back(entry.first);
        }
        return "found \"" + *name + "\"; accepted: a fabric of the board file or of the library" +
               did_you_mean(*name, valid);
    }
    place.name(*name);
    return "";
}

std::string set_number(const DesignValue& place, const Change& change) {
    const auto* value = std::get_if<double>(&change.value);
    const Accepted& range = accepted(place.range);
    if (value == nullptr || !is_accepted(range, *value)) {
        const std::string found = value == nullptr ? "a text" : number_text(*value);
        return "found " + found + "; accepted: " + accepted_text(range);
    }
    place.set(to_si(place.range, *value));
    return "";
}

std::string make_change(const DesignValues& values, const Change& change, Order order,
                        const MaterialLibrary& named) {
    const auto found = std::find_if(values.begin(), values.end(), [&](const DesignValue& value) {
        return value.path == change.path;
    });
    if (found == values.end()) {
        return order == scales_last ? unknown_path(change.path, values) : "";
    }
    if (found->order != order) {
        return "";
    }
    return found->range.empty() ? set_name(*found, change, named) : set_number(*found, change);
}

/// What a set of values can break though each is in its range.
void check_whole(const Board& board, const std::string& place, std::vector<Problem>& problems) {
    for (const auto& [name, material] : board.materials) {
        if (!material.isotropic &&
            !(std::abs(material.nu12) < std::sqrt(material.E1 / material.E2))) {
            problems.push_back({place, "material." + name +
                                           ".nu12: accepted: below sqrt(E1/E2) = " +
                                           number_text(std::sqrt(material.E1 / material.E2))});
        }
    }
    const Accepted& range = accepted("core.thickness_mm");
    for (const double value : board.core ? board.core->thickness.value : std::vector<double>{}) {
        const double shown = from_si("core.thickness_mm", value);
        if (!is_accepted(range, shown)) {
            problems.push_back({place, "core.thickness_mm: becomes " + number_text(shown) +
                                           "; accepted: " + accepted_text(range)});
        }
    }
}

} // namespace

std::vector<std::string> design_value_paths(const Board& board) {
    Board copy = board; // the places refer to a board that can be changed
    return names(design_values(copy, {}));
}

void apply_changes(Board& board, const std::vector<Change>& changes, const MaterialLibrary& named) {
    std::vector<Problem> problems;
    for (const Order order : {fabrics_first, then_values, scales_last}) {
        // anew each time: a new fabric brings its own values
        const DesignValues values = design_values(board, named);
        for (const Change& change : changes) {
            const std::string wrong = make_change(values, change, order, named);
            if (!wrong.empty()) {
                problems.push_back({change.place, "\"" + change.path + "\": " + wrong});
            }
        }
    }
    if (!changes.empty() && problems.empty()) {
        check_whole(board, changes.front().place, problems);
    }
    if (!problems.empty()) {
        throw InputError(problems);
    }
}

Board with_values(const Board& board, const std::vector<std::string>& paths,
                  const Eigen::VectorXd& values, const MaterialLibrary& named) {
    std::vector<Change> changes;
    for (std::size_t i = 0; i < paths.size(); ++i) {
        changes.push_back({paths[i],
                           from_si(key_of_path(paths[i]), values(static_cast<Eigen::Index>(i))),
                           "a drawn value"});
    }
    Board changed = board;
    apply_changes(changed, changes, named);
    return changed;
}

} // namespace vrid
