#include "io/design/board_tables.hpp"

#include <algorithm>
#include <map>
#include <vector>

namespace vrid {

namespace {

bool scaled(const Board& changed, const ScaledFrom& from, std::size_t layer) {
    return changed.layers[layer].fabric != from.base.layers[layer].fabric;
}

bool named_in_tolerance(const Board& board, const std::string& fabric) {
    const std::string path = "fabric." + fabric + ".";
    const auto found = board.tolerance.lower_bound(path);
    return found != board.tolerance.end() && found->first.starts_with(path);
}

/// The fabrics, by name, that change where they stand.
std::vector<std::string> changed_in_place(const Board& changed, const ScaledFrom& from) {
    std::map<std::string, bool> all_scaled;
    for (std::size_t i = 0; i < changed.layers.size(); ++i) {
        bool& all = all_scaled.emplace(from.base.layers[i].fabric, true).first->second;
        all = all && scaled(changed, from, i);
    }
    std::vector<std::string> names;
    for (const auto& [name, all] : all_scaled) {
        if (all && (from.in_file(name) || named_in_tolerance(from.was.board, name))) {
            names.push_back(name);
        }
    }
    return names;
}

std::string free_name(const Board& changed, const ScaledFrom& from, std::size_t layer) {
    constexpr std::size_t longest = 60; // accepted are 80 bytes, letters beyond ASCII spelled out
    std::string stem = from.base.layers[layer].fabric + " for " + changed.layers[layer].name;
    const bool plain = std::ranges::all_of(stem, [](char c) { return c >= 0x20 && c < 0x7e; });
    if (!plain || stem.size() > longest) {
        stem = "scaled fabric";
    }
    std::string name = stem;
    for (int i = 2; from.was.named.fabrics.contains(name) || changed.fabrics.contains(name); ++i) {
        name = stem + " " + std::to_string(i);
    }
    return name;
}

} // namespace

bool same_plies(const Fabric& a, const Fabric& b) {
    bool same = a.plies.size() == b.plies.size();
    for (std::size_t i = 0; same && i < a.plies.size(); ++i) {
        same = a.plies[i].areal_weight == b.plies[i].areal_weight &&
               a.plies[i].ply_thickness == b.plies[i].ply_thickness;
    }
    return same;
}

void name_scaled_fabrics(Board& changed, const ScaledFrom& from) {
    struct Named {
        std::string base;
        Fabric fabric;
    };
    std::vector<Named> done;
    std::vector<std::string> in_place = changed_in_place(changed, from);
    for (std::size_t i = 0; i < changed.layers.size(); ++i) {
        if (!scaled(changed, from, i)) {
            continue;
        }
        const std::string& base = from.base.layers[i].fabric;
        Fabric fabric = changed.fabrics.at(changed.layers[i].fabric);
        const auto alike = std::ranges::find_if(done, [&](const Named& other) {
            return other.base == base && same_plies(other.fabric, fabric);
        });
        if (alike != done.end()) {
            changed.layers[i].fabric = alike->fabric.name;
            continue;
        }
        const bool place = std::erase(in_place, base) > 0; // for the first layer only
        fabric.name = place ? base : free_name(changed, from, i);
        fabric.note = from.base.fabrics.at(base).note;
        changed.layers[i].fabric = fabric.name;
        changed.fabrics[fabric.name] = fabric;
        done.push_back({base, fabric});
    }
}

} // namespace vrid
