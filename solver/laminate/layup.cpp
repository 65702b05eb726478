#include "solver/laminate/layup.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <type_traits>

namespace vrid {

namespace {

bool inside(const std::optional<Range>& range, double value) {
    return !range || (value >= (*range)[0] && value <= (*range)[1]);
}

bool in_ribbon(const Ribbon& ribbon, const Eigen::Vector2d& p) {
    const Eigen::Vector2d axis = ribbon.to - ribbon.from;
    const double length = axis.norm();
    const Eigen::Vector2d direction = axis / length;
    const Eigen::Vector2d offset = p - ribbon.from;
    const double along = offset.dot(direction);
    const double across = direction.x() * offset.y() - direction.y() * offset.x();
    return along >= 0 && along <= length && std::abs(across) <= ribbon.width / 2;
}

bool in_zone(const Zone& zone, const Eigen::Vector2d& p, double distance) {
    return inside(zone.x, p.x()) && inside(zone.y, p.y()) &&
           (!zone.ribbon || in_ribbon(*zone.ribbon, p)) && inside(zone.outline, distance);
}

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

template <class T> int core_variant(const Layup<T>& layup, const Eigen::Vector2d& p) {
    const Board& board = *layup.board;
    if (board.tip_spacer && !inside(board.tip_spacer->x, p.x())) {
        return layup.spacer_variant;
    }
    if (!board.core->resolve) {
        const auto& breaks = layup.core_breaks;
        return static_cast<int>(std::upper_bound(breaks.begin(), breaks.end(), p.x()) -
                                breaks.begin());
    }
    double total = 0;
    for (const Strip& strip : board.core->strips) {
        total += strip.width;
    }
    double y = std::fmod(std::abs(p.y()), total);
    std::size_t i = 0;
    while (i + 1 < board.core->strips.size() && y > board.core->strips[i].width) {
        y -= board.core->strips[i].width;
        ++i;
    }
    return inside(board.core->strips[i].x, p.x()) ? layup.strip_variant[i]
                                                  : layup.strip_variant.front();
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

template <class T> StackKey stack_key(const Layup<T>& layup, const Eigen::Vector2d& point) {
    const Board& board = *layup.board;
    const double distance = layup.distance ? (*layup.distance)(point) : 0;
    StackKey key(layup.items.size() + 2, 0);
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<T>& item = layup.items[i];
        const Eigen::Vector2d p(point.x(), item.mirrored ? -point.y() : point.y());
        key[i] = in_zone(item.zone, p, distance) ? 1 : 0;
    }
    std::uint16_t& base = key[layup.items.size()];
    if (board.edge && inside(board.edge->x, point.x())) {
        const double flange = board.edge->flange ? board.edge->flange->width : 0;
        if (distance <= board.edge->width) {
            base = flange > 0 ? edge_and_flange : edge_only;
        } else if (distance <= board.edge->width + flange) {
            base = base_and_flange;
        }
    }
    if (board.core) {
        const bool wall = board.sidewall && inside(board.sidewall->x, point.x()) &&
                          distance <= board.sidewall->width;
        key.back() =
            static_cast<std::uint16_t>(wall ? layup.sidewall_variant : core_variant(layup, point));
    }
    return key;
}

template <class T>
std::vector<Lamina<T>> stack_laminae(const Layup<T>& layup, const StackKey& key, const T& core) {
    std::vector<Lamina<T>> stack;
    const std::uint16_t base = key[layup.items.size()];
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<T>& item = layup.items[i];
        const bool there = key[i] != 0;
        if (i == 0 && (base == edge_only || base == edge_and_flange)) {
            Lamina<T> body = layup.edge;
            for (const Lamina<T>& ply : item.plies) {
                body.thickness += there ? ply.thickness : T(0);
            }
            if (base == edge_and_flange) {
                body.thickness += layup.flange.thickness;
            }
            stack.push_back(body);
            continue;
        }
        if (there && item.is_core) {
            stack.push_back(layup.core_variants[key.back()]);
            stack.back().thickness = core;
        } else if (there) {
            stack.insert(stack.end(), item.plies.begin(), item.plies.end());
        }
        if (i == 0 && base == base_and_flange) {
            stack.push_back(layup.flange);
        }
    }
    return stack;
}

template <class T> T core_thickness(const Layup<T>& layup, double x) {
    const auto& core = layup.board->core;
    return core ? value_at(core->thickness, layup.core_values, layup.core_slopes, x) : T(0);
}

int SectionCache::stack_index(const Eigen::Vector2d& point) {
    StackKey key = stack_key(*layup_, point);
    const auto [found, fresh] = index_.try_emplace(std::move(key), static_cast<int>(keys_.size()));
    if (fresh) {
        keys_.push_back(found->first);
        sections_.emplace_back();
    }
    return found->second;
}

const Section<double>& SectionCache::section(int stack, double x) {
    constexpr double quantum = 1e-13;
    const auto step = static_cast<std::int64_t>(std::llround(core_thickness(*layup_, x) / quantum));
    auto& known = sections_[static_cast<std::size_t>(stack)];
    const auto found = known.find(step);
    if (found != known.end()) {
        return found->second;
    }
    const double core = static_cast<double>(step) * quantum;
    return known
        .emplace(step, vrid::section(
                           stack_laminae(*layup_, keys_[static_cast<std::size_t>(stack)], core)))
        .first->second;
}

template Layup<double> make_layup(const Board&, const BoardReading<double>&);
template Layup<Dual> make_layup(const Board&, const BoardReading<Dual>&);
template StackKey stack_key(const Layup<double>&, const Eigen::Vector2d&);
template std::vector<Lamina<double>> stack_laminae(const Layup<double>&, const StackKey&,
                                                   const double&);
template std::vector<Lamina<Dual>> stack_laminae(const Layup<Dual>&, const StackKey&, const Dual&);
template double core_thickness(const Layup<double>&, double);
template Dual core_thickness(const Layup<Dual>&, double);

} // namespace vrid
