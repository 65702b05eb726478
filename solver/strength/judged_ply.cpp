#include "solver/strength/judged_ply.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/lists.hpp"
#include "solver/laminate/micromechanics.hpp"
#include "solver/laminate/stacking.hpp"

namespace vrid {

namespace {

constexpr double metal_from = 20e9;     // Young's modulus of an isotropic material [Pa]
constexpr double lightest_fibre = 1100; // no fibre ply is lighter, no wood heavier [kg/m3]

MaterialFamily family_of(const Material& material, bool fabric) {
    if (material.isotropic) {
        return material.E1 >= metal_from ? MaterialFamily::metal : MaterialFamily::plastic;
    }
    return fabric || material.density > lightest_fibre ? MaterialFamily::fibre
                                                       : MaterialFamily::wood;
}

// Strengths as the file has them, completed by what stands in for a missing one.
class Reading {
  public:
    Reading(const Board& board, JudgedLayup& judged) : board_(board), judged_(judged) {}

    std::optional<PlyStrength> strength(const std::string& layer, const Strengths& s,
                                        MaterialFamily family, double along) {
        const bool one = family == MaterialFamily::metal || family == MaterialFamily::plastic;
        if (!s.Xt || !s.Xc || (!one && (!s.Yt || !s.Yc || !s.S12))) {
            add_once(judged_.not_judged, layer);
            return std::nullopt;
        }
        PlyStrength found{*s.Xt * along, *s.Xc * along, 0, 0, 0, s.S13, s.S23, one};
        if (one) {
            const double shear = s.S12.value_or(std::min(*s.Xt, *s.Xc) / std::sqrt(3.0));
            found.S13 = s.S13.value_or(shear);
            found.S23 = s.S23.value_or(*found.S13);
            return found;
        }
        found.Yt = *s.Yt;
        found.Yc = *s.Yc;
        found.S12 = *s.S12;
        if (family == MaterialFamily::fibre && (!s.S13 || !s.S23)) {
            found.S13 = s.S13.value_or(*s.S12);
            found.S23 = s.S23.value_or(*s.S12);
            add_once(judged_.taken, layer);
        } else if (!s.S13 || !s.S23) {
            add_once(judged_.not_judged, layer + " (shear through the thickness)");
        }
        return found;
    }

    JudgedPart material(const std::string& layer, const std::string& name) {
        const Material& of = board_.materials.at(name);
        const MaterialFamily family = family_of(of, false);
        return {name, family, strength(layer, of.strengths, family, 1)};
    }

    JudgedPly ply(int layer, const std::string& name, double angle) {
        const Material& of = board_.materials.at(name);
        JudgedPly ply;
        ply.layer = layer;
        ply.angle = angle;
        ply.ply = ply_constants<double>(of);
        ply.E3 = of.E3.value_or(of.E2);
        ply.parts = {material(judged_.layers[static_cast<std::size_t>(layer)], name)};
        return ply;
    }

    JudgedPly fabric_ply(int layer, const Fabric& fabric, const FabricPly& one, double angle) {
        const std::string& name = judged_.layers[static_cast<std::size_t>(layer)];
        const std::string& lender =
            fabric.strengths_of.empty() ? one.ply_material : fabric.strengths_of;
        JudgedPly ply;
        ply.layer = layer;
        ply.angle = angle;
        ply.ply = one.ply_material.empty()
                      ? unidirectional_ply(ply_constants<double>(board_.materials.at(one.fibre)),
                                           ply_constants<double>(board_.materials.at(fabric.resin)),
                                           fabric.fibre_volume_fraction)
                      : ply_constants<double>(board_.materials.at(one.ply_material));
        JudgedPart part{lender, MaterialFamily::fibre, std::nullopt};
        if (lender.empty()) {
            add_once(judged_.not_judged, name);
        } else { // breaks at the same strain
            const Material& of = board_.materials.at(lender);
            part.family = family_of(of, true);
            part.strength =
                strength(name, of.strengths, part.family, of.isotropic ? 1 : ply.ply.E1 / of.E1);
        }
        ply.parts = {part};
        return ply;
    }

  private:
    const Board& board_;
    JudgedLayup& judged_;
};

int add_name(JudgedLayup& judged, const std::string& name) {
    judged.layers.push_back(name);
    return static_cast<int>(judged.layers.size()) - 1;
}

// As make_layup turns them: flip reverses the order and the angles, a mirrored copy the angles.
std::vector<JudgedPly> item_plies(Reading& reading, const Board& board,
                                  const LayupItem<double>& item, int layer) {
    const Layer& of = *item.layer;
    const double sign = item.mirrored ? -1 : 1;
    const double turn = sign * item.angle; // along the item's own ribbons, before mirroring
    std::vector<JudgedPly> plies;
    if (of.kind == LayerKind::material) {
        plies.push_back(reading.ply(layer, of.material, sign * turn));
    } else if (of.kind == LayerKind::fabric) {
        const Fabric& fabric = board.fabrics.at(of.fabric);
        for (const FabricPly& one : fabric.plies) {
            const double angle = turn + (of.flip ? -one.angle : one.angle);
            plies.push_back(reading.fabric_ply(layer, fabric, one, sign * angle));
        }
        if (of.flip) {
            std::ranges::reverse(plies);
        }
    }
    for (std::size_t i = 0; i < plies.size(); ++i) {
        plies[i].number = static_cast<int>(i) + 1;
    }
    return plies;
}

PlyConstants<double> constants_of(const Lamina<double>& lamina) {
    PlyConstants<double> ply; // of a lamina whose axes are the board's
    const Eigen::Matrix3d flexible = lamina.Qbar.inverse();
    ply.E1 = 1 / flexible(0, 0);
    ply.E2 = 1 / flexible(1, 1);
    ply.nu12 = -flexible(0, 1) * ply.E1;
    ply.G12 = 1 / flexible(2, 2);
    ply.G23 = 1 / lamina.compliance(0, 0);
    ply.G13 = 1 / lamina.compliance(1, 1);
    return ply;
}

// A core variant of one material or of several smeared ones.
JudgedPly core_ply(Reading& reading, const Board& board, const Lamina<double>& lamina, int layer,
                   const std::string& name, const std::vector<std::string>& materials) {
    JudgedPly ply;
    ply.layer = layer;
    ply.ply = constants_of(lamina);
    ply.core = true;
    double softness = 0;
    for (const std::string& material : materials) {
        const Material& of = board.materials.at(material);
        JudgedPart part =
            reading.material(materials.size() > 1 ? name + " " + material : name, material);
        if (materials.size() > 1) {
            part.share << of.E1 / ply.ply.E1, of.nu12 - of.E1 / ply.ply.E1 * ply.ply.nu12, 0, //
                0, 1, 0, 0, 0, 1;
            part.shear_share << of.G13 / ply.ply.G13, 1;
        }
        softness = std::max(softness, 1 / of.E3.value_or(of.E2));
        ply.parts.push_back(part);
    }
    ply.E3 = 1 / softness; // the softest strip lets the face go
    return ply;
}

std::vector<std::string> materials_of(const std::vector<CoreShare>& shares) {
    std::vector<std::string> found;
    for (const CoreShare& one : shares) {
        add_once(found, one.material);
    }
    return found;
}

void add_core(JudgedLayup& judged, Reading& reading, const Layup<double>& layup,
              const std::string& core_name) {
    const Board& board = *layup.board;
    const int core = add_name(judged, core_name);
    for (std::size_t i = 0; i < layup.core_variants.size(); ++i) {
        const int variant = static_cast<int>(i);
        const std::string& made_of = layup.core_names[i];
        if (variant == layup.spacer_variant || variant == layup.sidewall_variant) {
            const std::string name = variant == layup.spacer_variant ? "tip spacer" : "sidewall";
            judged.core_variants.push_back(core_ply(reading, board, layup.core_variants[i],
                                                    add_name(judged, name), name, {made_of}));
            continue;
        }
        judged.core_variants.push_back(core_ply(reading, board, layup.core_variants[i], core,
                                                core_name, materials_of(layup.core_shares[i])));
    }
}

} // namespace

JudgedLayup judged_layup(const Layup<double>& layup) {
    const Board& board = *layup.board;
    JudgedLayup judged;
    Reading reading(board, judged);
    std::string core_name = "core";
    for (const LayupItem<double>& item : layup.items) {
        core_name = item.is_core ? item.name : core_name;
        judged.items.push_back(item_plies(reading, board, item, add_name(judged, item.name)));
    }
    if (board.core) {
        add_core(judged, reading, layup, core_name);
    }
    if (board.edge) {
        judged.edge = reading.ply(add_name(judged, "edge"), board.edge->material, 0);
        if (board.edge->flange) {
            judged.flange = reading.ply(add_name(judged, "flange"), board.edge->material, 0);
            const double fill = board.edge->flange->fill; // teeth bear what their gaps do not
            judged.flange.ply = constants_of(layup.flange);
            judged.flange.parts.front().share /= fill;
            judged.flange.parts.front().shear_share /= fill;
        }
    }
    return judged;
}

std::vector<const JudgedPly*> judged_stack(const Layup<double>& layup, const JudgedLayup& judged,
                                           const StackKey& key) {
    std::vector<const JudgedPly*> stack;
    visit_stack(layup, key, 0.0, [&](const StackPart<double>& part) {
        if (part.kind != PartKind::layer) {
            stack.push_back(&ply_of(part.kind, key, judged));
            return;
        }
        const auto item = static_cast<std::size_t>(part.item - layup.items.data());
        for (const JudgedPly& ply : judged.items[item]) {
            stack.push_back(&ply);
        }
    });
    return stack;
}

} // namespace vrid
