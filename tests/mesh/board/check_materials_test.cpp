#include "mesh/board/check_board.hpp"

#include <limits>

#include <catch2/catch.hpp>

#include "mesh/board/material_keys.hpp"

using namespace vrid;

namespace {

Material sound_wood() {
    Material wood;
    wood.E1 = 9e9;
    wood.E2 = 1e9;
    wood.nu12 = 0.4;
    wood.G12 = wood.G13 = wood.G23 = 0.5e9;
    wood.density = 450;
    wood.strengths = {5e7, 3e7, 2e6, 4e6, 6e6, 6e6, 2e6};
    wood.stress_free = 20;
    wood.E3 = 0.8e9;
    return wood;
}

// The keys at which a material is at fault.
std::vector<std::string> wrong_keys(const Material& material) {
    std::vector<BoardFault> faults;
    check_material("wood", material, faults);
    std::vector<std::string> keys;
    for (const BoardFault& fault : faults) {
        CHECK(fault.at.part == PartOfBoard::material);
        CHECK(fault.at.name == "wood");
        keys.emplace_back(fault.at.field);
    }
    return keys;
}

std::vector<BoardFault> fabric_faults(const Fabric& fabric) {
    std::map<std::string, Material> materials;
    materials["fibre"];
    materials["resin"];
    materials["ply"].strengths.Xt = 1e9;
    std::vector<BoardFault> faults;
    check_fabric("cloth", fabric, materials, faults);
    return faults;
}

} // namespace

TEST_CASE("every constant, strength and expansion of a material is looked at under its own key") {
    using Keys = std::vector<std::string>;
    CHECK(wrong_keys(sound_wood()).empty());
    for (const MaterialKey& key : material_keys(false)) {
        Material wood = sound_wood();
        double* value = key.strength   ? &*(wood.strengths.*key.strength)
                        : key.optional ? &*(wood.*key.optional)
                                       : &(wood.*key.value);
        *value = std::numeric_limits<double>::quiet_NaN();
        CHECK(wrong_keys(wood) == Keys{std::string(key.key)});
        *value = -0.1; // only what may be below 0 may
        const bool may = key.optional != nullptr || (key.value != nullptr && !key.required) ||
                         key.value == &Material::nu12;
        const bool is_share = key.value == &Material::slow;
        CAPTURE(key.key);
        CHECK(wrong_keys(wood) == (may && !is_share ? Keys{} : Keys{std::string(key.key)}));
    }
    Material wood = sound_wood();
    wood.E3 = 0;
    CHECK(wrong_keys(wood) == Keys{"E3_GPa"});
}

TEST_CASE("Poisson's ratio stays where no deformation releases energy") {
    // orthotropic: nu12^2 < E1 / E2 (Jones 1975, eq. 2.48); isotropic: -1 < nu < 0.5
    Material wood = sound_wood(); // sqrt(E1 / E2) = 3
    for (const double nu : {2.99, -2.99}) {
        wood.nu12 = nu;
        CHECK(wrong_keys(wood).empty());
        wood.nu12 = nu * 3.01 / 2.99;
        CHECK(wrong_keys(wood).size() == 1);
    }
    Material metal = sound_wood();
    metal.isotropic = true;
    for (const auto& [nu, good] :
         {std::pair(0.49, true), {0.5, false}, {-0.99, true}, {-1.0, false}}) {
        metal.nu12 = nu;
        complete(metal);
        CHECK(wrong_keys(metal) ==
              (good ? std::vector<std::string>{} : std::vector<std::string>{"nu"}));
    }
}

TEST_CASE("an isotropic material has the moduli that follow from its two constants") {
    Material metal = sound_wood();
    metal.isotropic = true;
    metal.nu12 = 0.3;
    complete(metal);
    CHECK(wrong_keys(metal).empty());
    for (double Material::*constant :
         {&Material::E2, &Material::G12, &Material::G13, &Material::G23}) {
        Material other = metal;
        other.*constant *= 1 + 1e-7;
        CHECK(wrong_keys(other) == std::vector<std::string>{"E_GPa"});
    }
}

TEST_CASE("a fabric's plies, by fibre and resin or measured, name what is there") {
    using enum Fault;
    const Fabric sound{"cloth", "resin", 0.5, {{0, "fibre", 0.3, "", 0}, {1, "", 0, "ply", 2e-4}},
                       "ply",   1.2,     ""};
    CHECK(fabric_faults(sound).empty());
    const auto expect_one = [&](Fault what, std::string_view field, int item, auto change) {
        Fabric fabric = sound;
        change(fabric);
        const auto faults = fabric_faults(fabric);
        CAPTURE(field);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].what == what);
        CHECK(faults[0].at.field == field);
        CHECK(faults[0].at.item == item);
    };
    expect_one(unknown_name, "fibre", 0, [](Fabric& f) { f.plies[0].fibre = "fibber"; });
    expect_one(not_positive, "areal_weight", 0, [](Fabric& f) { f.plies[0].areal_weight = 0; });
    expect_one(unknown_name, "ply_material", 1, [](Fabric& f) { f.plies[1].ply_material = "x"; });
    expect_one(not_positive, "ply_thickness", 1, [](Fabric& f) { f.plies[1].ply_thickness = 0; });
    expect_one(unknown_name, "resin", -1, [](Fabric& f) { f.resin = "x"; });
    expect_one(no_share, "fibre_volume_fraction", -1,
               [](Fabric& f) { f.fibre_volume_fraction = 1.1; });
    expect_one(negative, "roll_width", -1, [](Fabric& f) { f.roll_width = -1; });
    expect_one(lends_no_strength, "strengths_of", -1, [](Fabric& f) { f.strengths_of = "fibre"; });
    expect_one(unknown_name, "strengths_of", -1, [](Fabric& f) { f.strengths_of = "x"; });
    // all plies measured: no resin is asked for
    Fabric measured = sound;
    measured.plies.erase(measured.plies.begin());
    measured.resin.clear();
    measured.fibre_volume_fraction = 0;
    CHECK(fabric_faults(measured).empty());
}
