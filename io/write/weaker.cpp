#include "io/write/weaker.hpp"

#include <cassert>
#include <numeric>

#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr double thinner = 0.95; // of what it was: below it a station is named
constexpr double lighter = 1 - 1e-6;

double mass_per_area(const Board& board, const Layer& layer) {
    if (layer.kind == LayerKind::material) {
        return layer.thickness * board.materials.at(layer.material).density;
    }
    const std::vector<FabricPly>& plies = board.fabrics.at(layer.fabric).plies;
    return std::accumulate(plies.begin(), plies.end(), 0.0, [&](double sum, const FabricPly& ply) {
        return sum + (ply.ply_material.empty()
                          ? ply.areal_weight
                          : ply.ply_thickness * board.materials.at(ply.ply_material).density);
    });
}

} // namespace

Weaker weaker_places(const Board& before, const Board& after) {
    Weaker weaker;
    if (before.core && after.core) {
        const std::vector<double>& was = before.core->thickness.value;
        const std::vector<double>& is = after.core->thickness.value;
        assert(was.size() == is.size());
        for (std::size_t i = 0; i < was.size(); ++i) {
            if (is[i] < thinner * was[i]) {
                weaker.stations.push_back({before.core->thickness.x[i], was[i], is[i]});
            }
        }
    }
    assert(before.layers.size() == after.layers.size());
    for (std::size_t i = 0; i < before.layers.size(); ++i) {
        if (before.layers[i].kind == LayerKind::core) {
            continue;
        }
        const double was = mass_per_area(before, before.layers[i]);
        const double is = mass_per_area(after, after.layers[i]);
        if (is < lighter * was) {
            weaker.layers.push_back({before.layers[i].name, was, is});
        }
    }
    return weaker;
}

std::string weaker_text(const Weaker& weaker) {
    if (weaker.stations.empty() && weaker.layers.empty()) {
        return "";
    }
    const auto shown = [](const char* key, double si) { return significant(from_si(key, si), 4); };
    std::string all = "\n  weaker than before; strength was not looked at\n";
    for (const ThinnerStation& one : weaker.stations) {
        all += "    core at x = " + shown("x_mm", one.x) +
               " mm: " + shown("thickness_mm", one.before) + " to " +
               shown("thickness_mm", one.after) + " mm\n";
    }
    for (const LighterLayer& one : weaker.layers) {
        all += "    layer " + one.name + ": " + shown("areal_weight_gsm", one.before) + " to " +
               shown("areal_weight_gsm", one.after) + " g/m2\n";
    }
    return all;
}

} // namespace vrid
