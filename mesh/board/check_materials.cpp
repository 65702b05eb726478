#include "mesh/board/check_board.hpp"

#include <cmath>

#include "mesh/board/material_keys.hpp"

namespace vrid {

namespace {

// An isotropic one releases no energy within -1 < nu < 0.5, an orthotropic one in a plane with
// |nu12| < sqrt(E1 / E2).
void check_contraction(const Material& material, PartCheck& check) {
    if (!check.finite(material.isotropic ? "nu" : "nu12", material.nu12)) {
        return;
    }
    if (material.isotropic) {
        if (!(material.nu12 > -1 && material.nu12 < 0.5)) {
            check.note(Fault::no_ratio, "nu", {material.nu12});
        }
        return;
    }
    const double limit = std::sqrt(material.E1 / material.E2);
    if (std::abs(material.nu12) >= limit) {
        check.note(Fault::large_contraction, "nu12", {material.nu12}, {limit});
    }
}

// Its maker may have given the first modulus only.
void check_isotropic(const Material& material, PartCheck& check) {
    Material whole = material;
    complete(whole);
    for (double Material::*constant :
         {&Material::E2, &Material::G12, &Material::G13, &Material::G23}) {
        constexpr double rounding = 1e-9;
        if (std::abs(material.*constant - whole.*constant) > rounding * whole.E1) {
            check.note(Fault::not_isotropic, "E_GPa", {material.E1});
            return;
        }
    }
}

void check_ply(const FabricPly& ply, const std::map<std::string, Material>& materials,
               PartCheck check) {
    check.finite("angle", ply.angle);
    if (ply.fibre.empty()) {
        check.known("ply_material", ply.ply_material, materials);
        check.positive("ply_thickness", ply.ply_thickness);
    } else {
        check.known("fibre", ply.fibre, materials);
        check.positive("areal_weight", ply.areal_weight);
    }
}

} // namespace

void check_material(const std::string& name, const Material& material,
                    std::vector<BoardFault>& faults) {
    PartCheck check(faults, {PartOfBoard::material, name});
    for (const MaterialKey& key : material_keys(material.isotropic)) {
        if (key.strength != nullptr) {
            if (const auto& strength = material.strengths.*key.strength) {
                check.positive(key.key, *strength);
            }
        } else if (key.optional != nullptr) {
            if (const auto& value = material.*key.optional) {
                check.finite(key.key, *value);
            }
        } else if (key.value == &Material::nu12) {
            check_contraction(material, check);
        } else if (key.value == &Material::slow) {
            check.share(key.key, material.slow);
        } else if (key.required) {
            check.positive(key.key, material.*key.value);
        } else {
            check.finite(key.key, material.*key.value);
        }
    }
    if (material.isotropic) {
        check_isotropic(material, check);
    }
    if (material.E3) {
        check.positive("E3_GPa", *material.E3);
    }
}

void check_fabric(const std::string& name, const Fabric& fabric,
                  const std::map<std::string, Material>& materials,
                  std::vector<BoardFault>& faults) {
    PartCheck check(faults, {PartOfBoard::fabric, name});
    if (fabric.plies.empty()) {
        check.note(Fault::empty, "plies");
    }
    bool by_fibre = false;
    for (std::size_t i = 0; i < fabric.plies.size(); ++i) {
        check_ply(fabric.plies[i], materials, check.in("plies", static_cast<int>(i)));
        by_fibre = by_fibre || !fabric.plies[i].fibre.empty();
    }
    if (by_fibre) {
        check.known("resin", fabric.resin, materials);
        check.share("fibre_volume_fraction", fabric.fibre_volume_fraction);
    }
    check.not_negative("roll_width", fabric.roll_width);
    if (fabric.strengths_of.empty()) {
        return;
    }
    if (check.known("strengths_of", fabric.strengths_of, materials) &&
        !materials.at(fabric.strengths_of).strengths.Xt) {
        check.note(Fault::lends_no_strength, "strengths_of");
        faults.back().text = fabric.strengths_of;
    }
}

} // namespace vrid
