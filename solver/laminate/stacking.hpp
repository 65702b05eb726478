#pragma once

#include <array>
#include <cstddef>
#include <string>

#include "solver/laminate/layup.hpp"

namespace vrid {

/// What a part of a stack is.
enum class PartKind {
    layer,      ///< a layer as it is listed
    core,       ///< the core's strips
    sidewall,   ///< in the core's place
    tip_spacer, ///< in the core's place
    edge,       ///< in the base's place; as high as base and flange where there is one
    flange      ///< on the base
};

/// What people call it; nothing for layer and core, which have a name.
inline std::string word_of(PartKind kind) {
    constexpr std::array words{"", "", "sidewall", "tip spacer", "edge", "flange"}; // as PartKind
    return words[static_cast<std::size_t>(kind)];
}

/// A part of a stack, upwards one after the other.
template <class T> struct StackPart {
    PartKind kind = PartKind::layer;
    const LayupItem<T>* item = nullptr; ///< the layer, or the one that it replaces or lies on
    T thickness = T(0);                 ///< [m]
};

/// Of plies for the core's variants, the edge and the flange (Layup, JudgedLayup) the one that a
/// part is of; not for a layer.
template <class Plies> const auto& ply_of(PartKind kind, const StackKey& key, const Plies& plies) {
    return kind == PartKind::edge     ? plies.edge
           : kind == PartKind::flange ? plies.flange
                                      : plies.core_variants[key.back()];
}

/// THE stacking rule (board-file format, "Edge, sidewall, stance"): which parts there are at a key,
/// in the place of base and core too. Laminate, drawing and mass are visitors of it.
/// An inlaid layer takes its height from the core.
/// \param core thickness of the core before anything is let into it [m]
/// \param visit called with each StackPart<T>, from the running surface upwards
template <class T, class Visit>
void visit_stack(const Layup<T>& layup, const StackKey& key, const T& core, const Visit& visit) {
    const std::uint16_t base = key[layup.items.size()];
    const auto plies = [](const LayupItem<T>& item) {
        T sum(0);
        for (const Lamina<T>& ply : item.plies) {
            sum += ply.thickness;
        }
        return sum;
    };
    T inlaid(0); // let into the core, above and below
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        if (key[i] != 0 && layup.items[i].layer->inlay) {
            inlaid += plies(layup.items[i]);
        }
    }
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<T>& item = layup.items[i];
        const bool there = key[i] != 0;
        if (i == 0 && (base == edge_only || base == edge_and_flange)) {
            T height = there ? plies(item) : T(0);
            if (base == edge_and_flange) {
                height += layup.flange.thickness;
            }
            visit(StackPart<T>{PartKind::edge, &item, height});
            continue;
        }
        if (there && item.is_core) {
            const int variant = key.back();
            visit(StackPart<T>{variant == layup.sidewall_variant ? PartKind::sidewall
                               : variant == layup.spacer_variant ? PartKind::tip_spacer
                                                                 : PartKind::core,
                               &item, T(core - inlaid)});
        } else if (there) {
            visit(StackPart<T>{PartKind::layer, &item, plies(item)});
        }
        if (i == 0 && base == base_and_flange) {
            visit(StackPart<T>{PartKind::flange, &item, layup.flange.thickness});
        }
    }
}

} // namespace vrid
