#include "mesh/board/material_keys.hpp"

namespace vrid {

namespace {

std::vector<MaterialKey> keys(bool isotropic, std::vector<MaterialKey> elastic) {
    elastic.push_back({"density_kgm3", &Material::density, nullptr, true});
    elastic.push_back({"alpha1_1e6K", &Material::alpha1, nullptr, false, false, true});
    elastic.push_back({"alpha2_1e6K", &Material::alpha2, nullptr, false, isotropic, true});
    elastic.push_back({"Xt_MPa", nullptr, &Strengths::Xt, false});
    elastic.push_back({"Xc_MPa", nullptr, &Strengths::Xc, false});
    elastic.push_back({"Yt_MPa", nullptr, &Strengths::Yt, false});
    elastic.push_back({"Yc_MPa", nullptr, &Strengths::Yc, false});
    elastic.push_back({"S12_MPa", nullptr, &Strengths::S12, false});
    elastic.push_back({"S13_MPa", nullptr, &Strengths::S13, false});
    elastic.push_back({"S23_MPa", nullptr, &Strengths::S23, false});
    elastic.push_back(
        {"stress_free_C", nullptr, nullptr, false, false, true, &Material::stress_free});
    elastic.push_back({"shrink1_percent", &Material::shrink1, nullptr, false, false, true});
    elastic.push_back({"shrink2_percent", &Material::shrink2, nullptr, false, isotropic, true});
    elastic.push_back({"swell1_percent", &Material::swell1, nullptr, false, false, true});
    elastic.push_back({"swell2_percent", &Material::swell2, nullptr, false, isotropic, true});
    elastic.push_back({"slow", &Material::slow, nullptr, false, false, true, nullptr, 1});
    return elastic;
}

} // namespace

void complete(Material& material) {
    if (material.isotropic) {
        material.E2 = material.E1;
        material.G12 = material.G13 = material.G23 = material.E1 / (2 * (1 + material.nu12));
        material.alpha2 = material.alpha1;
        material.shrink2 = material.shrink1;
        material.swell2 = material.swell1;
    }
}

const std::vector<MaterialKey>& material_keys(bool isotropic) {
    static const std::vector<MaterialKey> one = keys(
        true, {{"E_GPa", &Material::E1, nullptr, true}, {"nu", &Material::nu12, nullptr, true}});
    static const std::vector<MaterialKey> two =
        keys(false, {{"E1_GPa", &Material::E1, nullptr, true},
                     {"E2_GPa", &Material::E2, nullptr, true},
                     {"nu12", &Material::nu12, nullptr, true},
                     {"G12_GPa", &Material::G12, nullptr, true},
                     {"G13_GPa", &Material::G13, nullptr, true},
                     {"G23_GPa", &Material::G23, nullptr, true}});
    return isotropic ? one : two;
}

std::vector<MaterialValue> material_values(const Material& material) {
    std::vector<MaterialValue> values;
    for (const MaterialKey& key : material_keys(material.isotropic)) {
        const std::string name(key.key);
        if (key.strength != nullptr) {
            if (const auto& strength = material.strengths.*key.strength) {
                values.push_back({name, *strength});
            }
            continue;
        }
        if (key.optional != nullptr) {
            if (const auto& value = material.*key.optional) {
                values.push_back({name, *value});
            }
            continue;
        }
        const double value = material.*key.value;
        if (key.required || material.source.contains(name) ||
            (value != key.otherwise && !key.follows)) {
            values.push_back({name, value});
        }
    }
    return values;
}

} // namespace vrid
