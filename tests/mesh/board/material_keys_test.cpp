#include "mesh/board/material_keys.hpp"

#include <set>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

std::vector<std::string> keys_of(const Material& material) {
    std::vector<std::string> keys;
    for (const MaterialValue& one : material_values(material)) {
        keys.push_back(one.key);
    }
    return keys;
}

} // namespace

TEST_CASE("an isotropic material's other constants follow, an orthotropic one's stay") {
    Material steel;
    steel.isotropic = true;
    steel.E1 = 210e9;
    steel.nu12 = 0.3;
    steel.alpha1 = 12e-6;
    steel.shrink1 = 0.01;
    steel.swell1 = 0.02;
    complete(steel);
    CHECK(steel.E2 == 210e9);
    for (const double G : {steel.G12, steel.G13, steel.G23}) {
        CHECK(G == Approx(210e9 / 2.6));
    }
    CHECK(steel.alpha2 == 12e-6);
    CHECK(steel.shrink2 == 0.01);
    CHECK(steel.swell2 == 0.02);
    Material wood = steel;
    wood.isotropic = false;
    wood.E1 = 1;
    wood.alpha1 = 2;
    complete(wood);
    CHECK(wood.E2 == 210e9);
    CHECK(wood.alpha2 == 12e-6);
}

TEST_CASE("every key names a value of its own, under the index that it carries") {
    for (const bool isotropic : {true, false}) {
        Material material;
        material.isotropic = isotropic;
        double next = 1;
        std::vector<MaterialValue> wanted;
        std::set<std::string> seen;
        for (const MaterialKey& key : material_keys(isotropic)) {
            CHECK((key.value != nullptr) + (key.strength != nullptr) + (key.optional != nullptr) ==
                  1);
            if (key.follows) {
                CHECK(isotropic);
                continue;
            }
            next += 1;
            wanted.push_back({std::string(key.key), next});
            CHECK(seen.insert(wanted.back().key).second);
            if (key.strength) {
                material.strengths.*key.strength = next;
            } else if (key.optional) {
                material.*key.optional = next;
            } else {
                material.*key.value = next;
            }
        }
        const auto found = material_values(material);
        REQUIRE(found.size() == wanted.size());
        for (std::size_t k = 0; k < found.size(); ++k) { // no two keys wrote one place
            CHECK(found[k].key == wanted[k].key);
            CHECK(found[k].value == wanted[k].value);
        }
    }
    Material wood;
    wood.E1 = 1;
    wood.E2 = 2;
    wood.nu12 = 3;
    wood.G12 = 4;
    wood.G13 = 5;
    wood.G23 = 6;
    wood.density = 7;
    wood.strengths = {8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0};
    double at = 0;
    for (const MaterialValue& one : material_values(wood)) { // in the order they are shown
        CHECK(one.value == ++at);
    }
    CHECK(at == 14);
}

TEST_CASE("a value that is what it is when nothing is said counts with a source only") {
    Material wood;
    using Keys = std::vector<std::string>;
    const Keys constants{"E1_GPa",  "E2_GPa",  "nu12",        "G12_GPa",
                         "G13_GPa", "G23_GPa", "density_kgm3"};
    CHECK(keys_of(wood) == constants);
    wood.source["alpha2_1e6K"] = "table";
    wood.slow = 0.5;
    Keys more = constants;
    more.insert(more.end(), {"alpha2_1e6K", "slow"});
    CHECK(keys_of(wood) == more);
    Material metal;
    metal.isotropic = true;
    metal.alpha1 = 1;
    complete(metal);
    CHECK(keys_of(metal) == Keys{"E_GPa", "nu", "density_kgm3", "alpha1_1e6K"});
}
