#include "solver/laminate/layup.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <type_traits>

namespace vrid {

namespace {

// A board and how its values are read.
template <class T> struct Source {
    const Board& board;
    const BoardReading<T>& read;
    [[nodiscard]] PlyConstants<T> constants(const std::string& material) const {
        return ply_constants<T>(board.materials.at(material), read);
    }
};

template <class T>
Lamina<T> fabric_lamina(const Source<T>& source, const Fabric& fabric, const FabricPly& ply,
                        const T& angle) {
    if (!ply.ply_material.empty()) {
        return lamina(source.constants(ply.ply_material), angle, source.read(ply.ply_thickness));
    }
    const PlyConstants<T> fibre = source.constants(ply.fibre);
    const PlyConstants<T> resin = source.constants(fabric.resin);
    const T fraction = source.read(fabric.fibre_volume_fraction);
    return lamina(unidirectional_ply(fibre, resin, fraction), angle,
                  ply_thickness(source.read(ply.areal_weight), fibre.density, fraction));
}

// Angle of the whole layer against +x: a ribbon's 0 direction runs along it.
template <class T> T layer_turn(const Layer& layer, const BoardReading<T>& read) {
    const T angle = read(layer.angle);
    if (!layer.zone.ribbon) {
        return angle;
    }
    const Eigen::Vector2d axis = layer.zone.ribbon->to - layer.zone.ribbon->from;
    return angle + std::atan2(axis.y(), axis.x());
}

// Plies of a layer upwards; the sign turns every angle of a mirrored copy.
template <class T>
std::vector<Lamina<T>> layer_plies(const Source<T>& source, const Layer& layer, double sign) {
    const T turn = layer_turn(layer, source.read);
    std::vector<Lamina<T>> plies;
    if (layer.kind == LayerKind::material) {
        plies.push_back(
            lamina(source.constants(layer.material), T(sign * turn), source.read(layer.thickness)));
    } else if (layer.kind == LayerKind::fabric) {
        const Fabric& fabric = source.board.fabrics.at(layer.fabric);
        for (const FabricPly& ply : fabric.plies) {
            const T angle = turn + (layer.flip ? -ply.angle : ply.angle);
            plies.push_back(fabric_lamina<T>(source, fabric, ply, T(sign * angle)));
        }
        if (layer.flip) {
            std::reverse(plies.begin(), plies.end());
        }
    }
    return plies;
}

template <class T>
LayupItem<T> layup_item(const Source<T>& source, const Layer& layer, bool mirrored) {
    const double angle = layer_turn(layer, BoardReading<double>());
    LayupItem<T> item;
    item.layer = &layer;
    item.name = mirrored ? layer.name + " (mirror)" : layer.name;
    item.made_of = layer.kind == LayerKind::fabric ? layer.fabric : layer.material;
    item.angle = mirrored ? -angle : angle;
    item.zone = layer.zone;
    item.mirrored = mirrored;
    item.is_core = layer.kind == LayerKind::core;
    item.plies = layer_plies<T>(source, layer, mirrored ? -1.0 : 1.0);
    return item;
}

// Strips side by side act in parallel along the grain and in series across it (board-file.md).
template <class T>
PlyConstants<T> smear(const std::vector<PlyConstants<T>>& strip, const std::vector<double>& share) {
    PlyConstants<T> mean;
    T inverse_E2(0);
    T inverse_G12(0);
    T inverse_G23(0);
    for (std::size_t i = 0; i < strip.size(); ++i) {
        const T w(share[i]);
        mean.E1 += w * strip[i].E1;
        mean.nu12 += w * strip[i].nu12;
        mean.G13 += w * strip[i].G13;
        mean.density += w * strip[i].density;
        mean.alpha1 += w * strip[i].alpha1;
        mean.alpha2 += w * strip[i].alpha2;
        inverse_E2 += w / strip[i].E2;
        inverse_G12 += w / strip[i].G12;
        inverse_G23 += w / strip[i].G23;
    }
    mean.E2 = T(1) / inverse_E2;
    mean.G12 = T(1) / inverse_G12;
    mean.G23 = T(1) / inverse_G23;
    return mean;
}

template <class T>
int add_core_variant(Layup<T>& layup, const PlyConstants<T>& ply, const std::string& name) {
    layup.core_variants.push_back(lamina(ply, T(0), T(0)));
    layup.core_names.push_back(name);
    return static_cast<int>(layup.core_variants.size()) - 1;
}

// Smeared strips: one variant between any two stations at which a strip begins or ends.
template <class T> void add_smeared(Layup<T>& layup, const Source<T>& source) {
    const std::vector<Strip>& strips = source.board.core->strips;
    std::vector<double>& breaks = layup.core_breaks;
    double total = 0;
    for (const Strip& strip : strips) {
        total += strip.width;
        if (strip.x) {
            breaks.insert(breaks.end(), strip.x->begin(), strip.x->end());
        }
    }
    std::sort(breaks.begin(), breaks.end());
    breaks.erase(std::unique(breaks.begin(), breaks.end()), breaks.end());
    for (std::size_t i = 0; i <= breaks.size(); ++i) {
        double x = 0;
        if (!breaks.empty()) {
            x = i == 0               ? breaks.front() - 1
                : i == breaks.size() ? breaks.back() + 1
                                     : (breaks[i - 1] + breaks[i]) / 2;
        }
        std::vector<PlyConstants<T>> parts;
        std::vector<double> share;
        std::string name;
        for (const Strip& strip : strips) {
            const std::string& material =
                inside(strip.x, x) ? strip.material : strips.front().material;
            parts.push_back(source.constants(material));
            share.push_back(strip.width / total);
            if (name.find(material) == std::string::npos) {
                name += (name.empty() ? "" : "+") + material;
            }
        }
        add_core_variant(layup, smear(parts, share), name);
    }
}

template <class T> void add_resolved(Layup<T>& layup, const Source<T>& source) {
    std::map<std::string, int> known;
    for (const Strip& strip : source.board.core->strips) {
        const auto [found, fresh] = known.try_emplace(strip.material, 0);
        if (fresh) {
            found->second =
                add_core_variant(layup, source.constants(strip.material), strip.material);
        }
        layup.strip_variant.push_back(found->second);
    }
}

bool needs_distance(const Board& board) {
    return board.edge || board.sidewall ||
           std::any_of(board.layers.begin(), board.layers.end(),
                       [](const Layer& layer) { return layer.zone.outline.has_value(); });
}

} // namespace

template <class T> Layup<T> make_layup(const Board& board, const BoardReading<T>& read) {
    const Source<T> source{board, read};
    Layup<T> layup;
    layup.board = &board;
    for (const Layer& layer : board.layers) {
        layup.items.push_back(layup_item<T>(source, layer, false));
        if (layer.mirror) {
            layup.items.push_back(layup_item<T>(source, layer, true));
        }
    }
    if (board.core) {
        for (const double& value : board.core->thickness.value) {
            layup.core_values.push_back(read(value));
        }
        layup.core_slopes = smooth_slopes(board.core->thickness.x, layup.core_values);
        if (board.core->resolve) {
            add_resolved(layup, source);
        } else {
            add_smeared(layup, source);
        }
        if (board.tip_spacer) {
            const std::string& name = board.tip_spacer->material;
            layup.spacer_variant = add_core_variant(layup, source.constants(name), name);
        }
        if (board.sidewall) {
            const std::string& name = board.sidewall->material;
            layup.sidewall_variant = add_core_variant(layup, source.constants(name), name);
        }
    }
    if (board.edge) {
        PlyConstants<T> metal = source.constants(board.edge->material);
        layup.edge = lamina(metal, T(0), T(0));
        if (board.edge->flange) {
            const T fill = read(board.edge->flange->fill);
            for (T* value :
                 {&metal.E1, &metal.E2, &metal.G12, &metal.G13, &metal.G23, &metal.density}) {
                *value = *value * fill;
            }
            layup.flange = lamina(metal, T(0), read(board.edge->flange->thickness));
        }
    }
    if (std::is_same_v<T, double> && needs_distance(board)) {
        layup.distance = std::make_shared<OutlineDistance>(board.planform);
    }
    return layup;
}

template Layup<double> make_layup(const Board&, const BoardReading<double>&);
template Layup<Dual> make_layup(const Board&, const BoardReading<Dual>&);
} // namespace vrid
