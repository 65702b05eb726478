#include "solver/laminate/layup.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "mesh/board/lists.hpp"
#include "mesh/board/zones.hpp"
#include "solver/laminate/strip_mix.hpp"

namespace vrid {

namespace {

// A board and how its values are read.
template <class T> struct Source {
    const Board& board;
    const BoardReading<T>& read;
    Pace pace;
    /// `holder`: whose temperature tells where the material holds no stress; null: its own.
    [[nodiscard]] PlyConstants<T> constants(const std::string& name,
                                            const Material* holder = nullptr) const {
        const Material& material = board.materials.at(name);
        PlyConstants<T> ply = ply_constants<T>(material, read);
        if (pace == Pace::slow) {
            slow_down(ply, material, read);
        }
        if (board.cure) {
            set_free_offset(ply, material, holder != nullptr ? *holder : material, *board.cure,
                            read);
        }
        return ply;
    }
};

template <class T>
Lamina<T> fabric_lamina(const Source<T>& source, const Fabric& fabric, const FabricPly& ply,
                        const T& angle) {
    if (!ply.ply_material.empty()) {
        return lamina(source.constants(ply.ply_material), angle, source.read(ply.ply_thickness));
    }
    const Material& holder = source.board.materials.at(fabric.resin);
    const PlyConstants<T> fibre = source.constants(ply.fibre, &holder);
    const PlyConstants<T> resin = source.constants(fabric.resin);
    const T fraction = source.read(fabric.fibre_volume_fraction);
    return lamina(unidirectional_ply(fibre, resin, fraction), angle,
                  ply_thickness(source.read(ply.areal_weight), fibre.density, fraction));
}

// Plies of a layer upwards; the sign turns every angle of a mirrored copy.
template <class T>
std::vector<Lamina<T>> layer_plies(const Source<T>& source, const Layer& layer, double along,
                                   double sign) {
    const T turn = source.read(layer.angle) + along;
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
            std::ranges::reverse(plies);
        }
    }
    return plies;
}

template <class T>
LayupItem<T> layup_item(const Source<T>& source, const Layer& layer, const ZoneGroup& group,
                        bool mirrored) {
    const double angle = layer.angle + group.turn;
    LayupItem<T> item;
    item.layer = &layer;
    item.name = mirrored ? layer.name + " (mirror)" : layer.name;
    item.made_of = layer.kind == LayerKind::fabric ? layer.fabric : layer.material;
    item.angle = mirrored ? -angle : angle;
    item.zones = group.zones;
    item.mirrored = mirrored;
    item.is_core = layer.kind == LayerKind::core;
    item.plies = layer_plies<T>(source, layer, group.turn, mirrored ? -1.0 : 1.0);
    return item;
}

// Strips side by side act in parallel along the grain and in series across it (board-file.md). Free
// strains: along, what leaves no force; across, each strip's own and what its neighbours' pull
// along the grain makes of its width.
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
        inverse_E2 += w / strip[i].E2;
        inverse_G12 += w / strip[i].G12;
        inverse_G23 += w / strip[i].G23;
    }
    mean.E2 = T(1) / inverse_E2;
    mean.G12 = T(1) / inverse_G12;
    mean.G23 = T(1) / inverse_G23;
    for (std::size_t i = 0; i < strip.size(); ++i) {
        const PlyConstants<T>& one = strip[i];
        const T along = share[i] * one.E1 / mean.E1;
        mean.alpha1 += along * one.alpha1;
        mean.offset1 += along * one.offset1;
        mean.alpha2 += share[i] * (one.alpha2 + one.nu12 * one.alpha1);
        mean.offset2 += share[i] * (one.offset2 + one.nu12 * one.offset1);
    }
    mean.alpha2 -= mean.nu12 * mean.alpha1;
    mean.offset2 -= mean.nu12 * mean.offset1;
    return mean;
}

template <class T>
Lamina<T> core_lamina_of(const Source<T>& source, const std::vector<CoreShare>& shares) {
    std::vector<PlyConstants<T>> parts;
    std::vector<double> share;
    for (const CoreShare& one : shares) {
        parts.push_back(source.constants(one.material));
        share.push_back(one.share);
    }
    const PlyConstants<T> ply = shares.size() == 1 ? parts.front() : smear(parts, share);
    return lamina(ply, T(0), T(0));
}

template <class T>
int add_core_variant(Layup<T>& layup, const Source<T>& source,
                     const std::vector<CoreShare>& shares) {
    layup.core_variants.push_back(core_lamina_of(source, shares));
    layup.core_names.push_back(joined(shares, "+", &CoreShare::material));
    layup.core_shares.push_back(shares);
    return static_cast<int>(layup.core_variants.size()) - 1;
}

template <class T>
int add_core_variant(Layup<T>& layup, const Source<T>& source, const std::string& material) {
    return add_core_variant(layup, source, std::vector<CoreShare>{{material, 1}});
}

const std::string& fill_of(const std::vector<Strip>& strips, const Strip& strip) {
    return strip.fill.empty() ? strips.front().material : strip.fill;
}

// The materials of a stretch, each once.
std::vector<CoreShare> shares_of(const std::vector<Strip>& strips, const std::vector<double>& share,
                                 double x) {
    std::vector<CoreShare> shares;
    for (std::size_t i = 0; i < strips.size(); ++i) {
        const std::string& material = strip_material(strips, i, x);
        const auto known = std::ranges::find(shares, material, &CoreShare::material);
        if (known != shares.end()) {
            known->share += share[i];
        } else if (share[i] > 0) {
            shares.push_back({material, share[i]});
        }
    }
    return shares;
}

// Smeared strips: one variant for each stretch of one mix.
template <class T>
CoreHalf add_smeared(Layup<T>& layup, const Source<T>& source, const std::vector<Strip>& strips,
                     const StripMix& mix) {
    CoreHalf half;
    half.breaks = mix.breaks;
    const std::vector<double>& breaks = half.breaks;
    for (std::size_t i = 0; i <= breaks.size(); ++i) {
        double x = 0;
        if (!breaks.empty()) {
            x = i == 0               ? breaks.front() - 1
                : i == breaks.size() ? breaks.back() + 1
                                     : (breaks[i - 1] + breaks[i]) / 2;
        }
        half.smeared.push_back(add_core_variant(layup, source, shares_of(strips, mix.share[i], x)));
    }
    return half;
}

template <class T>
CoreHalf add_resolved(Layup<T>& layup, const Source<T>& source, const std::vector<Strip>& strips) {
    CoreHalf half;
    const auto variant = [&](const std::string& material) {
        const auto found = std::ranges::find(layup.core_names, material);
        return found == layup.core_names.end() ? add_core_variant(layup, source, material)
                                               : static_cast<int>(found - layup.core_names.begin());
    };
    for (const Strip& strip : strips) {
        half.strip.push_back(variant(strip.material));
        half.fill.push_back(variant(fill_of(strips, strip)));
    }
    return half;
}

template <class T> void add_core(Layup<T>& layup, const Source<T>& source) {
    const Board& board = source.board;
    for (const double& value : board.core->thickness.value) {
        layup.core_values.push_back(source.read(value));
    }
    layup.core_slopes = smooth_slopes(board.core->thickness.x, layup.core_values);
    const Core& core = *board.core;
    if (core.resolve) {
        layup.left = add_resolved(layup, source, core.strips);
        layup.right =
            core.strips_right.empty() ? layup.left : add_resolved(layup, source, core.strips_right);
    } else {
        const CoreMix mix = core_mix(board);
        layup.left = add_smeared(layup, source, core.strips, mix.left);
        layup.right =
            mix.right ? add_smeared(layup, source, core.strips_right, *mix.right) : layup.left;
    }
    if (board.tip_spacer) {
        layup.spacer_variant = add_core_variant(layup, source, board.tip_spacer->material);
    }
    if (board.sidewall) {
        layup.sidewall_variant = add_core_variant(layup, source, board.sidewall->material);
    }
}

bool needs_distance(const Board& board) {
    return board.edge || board.sidewall ||
           std::ranges::any_of(board.layers, [](const Layer& layer) {
               const std::vector<Zone> zones = zones_of(layer);
               return std::ranges::any_of(
                   zones, [](const Zone& zone) { return zone.outline.has_value(); });
           });
}

} // namespace

Lamina<double> core_lamina(const Board& board, const std::vector<CoreShare>& shares, Pace pace) {
    const BoardReading<double> plain;
    return core_lamina_of(Source<double>{board, plain, pace}, shares);
}

bool creeps(const Board& board) {
    return std::ranges::any_of(board.materials,
                               [](const auto& entry) { return entry.second.slow != 1; });
}

template <class T> Layup<T> make_layup(const Board& board, const BoardReading<T>& read, Pace pace) {
    const Source<T> source{board, read, pace};
    Layup<T> layup;
    layup.board = &board;
    for (const Layer& layer : board.layers) {
        for (const ZoneGroup& group : zone_groups(layer)) {
            layup.items.push_back(layup_item<T>(source, layer, group, false));
            if (layer.mirror) {
                layup.items.push_back(layup_item<T>(source, layer, group, true));
            }
        }
    }
    if (board.core) {
        add_core(layup, source);
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

template Layup<double> make_layup(const Board&, const BoardReading<double>&, Pace);
template Layup<Dual> make_layup(const Board&, const BoardReading<Dual>&, Pace);
} // namespace vrid
