#include "solver/design/design_kinds.hpp"

#include <array>
#include <numbers>

#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

using Numbers = std::vector<double*>;

// A layer and its fabric, null if it has none.
struct LayerParts {
    Layer& layer;
    Fabric* fabric;
};

// One kind and where it stands in a part of the board; nowhere: this part has no such value.
template <class Part> struct Row {
    DesignKind kind;
    Numbers (*numbers)(Part& part);
};

Numbers thickness_of(Core& core) {
    Numbers all;
    for (double& value : core.thickness.value) {
        all.push_back(&value);
    }
    return all;
}

constexpr double degree = std::numbers::pi / 180;

// The tables of kinds: property, form, workshop step (common practice, no source), may be
// zero, moves numbers; then where the value stands.

constexpr auto core_kinds = std::to_array<Row<Core>>({
    {{DesignProperty::core_scale, nullptr, DesignForm::scale, 0.01}, thickness_of},
    {{DesignProperty::core_thickness, nullptr, DesignForm::station, 1e-4}, thickness_of},
});

constexpr auto layer_kinds = std::to_array<Row<LayerParts>>({
    {{DesignProperty::layer_angle, nullptr, DesignForm::value, degree, true},
     [](LayerParts& of) { return Numbers{&of.layer.angle}; }},
    {{DesignProperty::layer_thickness, nullptr, DesignForm::value, 1e-4},
     [](LayerParts& of) {
         const bool sheet = of.layer.kind == LayerKind::material;
         return sheet ? Numbers{&of.layer.thickness} : Numbers{};
     }},
    {{DesignProperty::layer_weight_scale, nullptr, DesignForm::scale, 0.05},
     [](LayerParts& of) { return of.fabric != nullptr ? weights_of(*of.fabric) : Numbers{}; }},
});

constexpr auto fabric_kinds = std::to_array<Row<Fabric>>({
    {{DesignProperty::fibre_fraction, nullptr, DesignForm::value, 0.02},
     [](Fabric& fabric) {
         return fabric.resin.empty() ? Numbers{} : Numbers{&fabric.fibre_volume_fraction};
     }},
});

constexpr auto mass_only_kinds = std::to_array<Row<MassOnly>>({
    {{DesignProperty::resin, nullptr, DesignForm::value, 0.03, true},
     [](MassOnly& part) { return Numbers{&part.resin}; }},
});

constexpr auto cure_kinds = std::to_array<Row<Cure>>({
    {{DesignProperty::cure_stress_free, nullptr, DesignForm::value, 5, true, true, true},
     [](Cure& cure) { return Numbers{&cure.stress_free}; }},
    {{DesignProperty::cure_moisture, nullptr, DesignForm::value, 0.005, true, true, true},
     [](Cure& cure) { return Numbers{&cure.moisture}; }},
});

// A workshop's change of what may be zero or negative (common practice, no source).
double step_of(const MaterialKey& key) {
    if (key.optional != nullptr) {
        return 5; // K
    }
    const auto any = [&](double Material::*a, double Material::*b) {
        return key.value != nullptr && (key.value == a || key.value == b);
    };
    return any(&Material::alpha1, &Material::alpha2)     ? 5e-6
           : any(&Material::shrink1, &Material::shrink2) ? 5e-4
           : any(&Material::swell1, &Material::swell2)   ? 0.02
                                                         : 0;
}

// The constants of a material stand in the table of mesh/board/material_keys.
const std::vector<DesignKind>& material_kinds(bool isotropic) {
    const auto kinds = [](bool one) {
        std::vector<DesignKind> all;
        for (const MaterialKey& key : material_keys(one)) {
            const double step = step_of(key);
            const bool may_be_zero = key.value == &Material::nu12 || step > 0;
            all.push_back({DesignProperty::constant, &key, DesignForm::value, step, may_be_zero,
                           key.required || key.of_cure, key.of_cure});
        }
        return all;
    };
    static const std::vector<DesignKind> of_isotropic = kinds(true);
    static const std::vector<DesignKind> of_orthotropic = kinds(false);
    return isotropic ? of_isotropic : of_orthotropic;
}

template <class Rows, class Part>
void add_part(const Rows& rows, Part& part, const DesignPlace& owner,
              std::vector<DesignPlace>& all) {
    for (const auto& row : rows) {
        DesignPlace place = owner;
        place.id.kind = &row.kind;
        place.numbers = row.numbers(part);
        if (row.kind.form != DesignForm::station) {
            if (!place.numbers.empty()) {
                all.push_back(place);
            }
            continue;
        }
        const Numbers stations = place.numbers;
        for (std::size_t i = 0; i < stations.size(); ++i) {
            place.id.index = i;
            place.numbers = {stations[i]};
            all.push_back(place);
        }
    }
}

void add_material(Material& material, const std::string& name, std::vector<DesignPlace>& all) {
    const std::vector<MaterialKey>& keys = material_keys(material.isotropic);
    for (std::size_t i = 0; i < keys.size(); ++i) {
        if (keys[i].follows) {
            continue;
        }
        DesignPlace place;
        place.id = {&material_kinds(material.isotropic)[i], name, 0};
        place.material = &material;
        if (keys[i].strength != nullptr) {
            place.strength = &(material.strengths.*keys[i].strength);
        } else if (keys[i].optional != nullptr) {
            if (!(material.*keys[i].optional)) {
                continue; // that of the cure counts
            }
            place.numbers = {&*(material.*keys[i].optional)};
        } else {
            place.numbers = {&(material.*keys[i].value)};
        }
        all.push_back(place);
    }
}

} // namespace

std::vector<double*> weights_of(Fabric& fabric) {
    Numbers all;
    for (FabricPly& ply : fabric.plies) {
        all.push_back(&ply.areal_weight);
        all.push_back(&ply.ply_thickness);
    }
    return all;
}

std::vector<DesignPlace> design_places(Board& board) {
    std::vector<DesignPlace> all;
    if (board.core) {
        add_part(core_kinds, *board.core, {}, all);
    }
    for (Layer& layer : board.layers) {
        DesignPlace owner;
        owner.id.part = layer.name;
        owner.layer = &layer;
        const bool woven = layer.kind == LayerKind::fabric;
        LayerParts parts{layer, woven ? &board.fabrics.at(layer.fabric) : nullptr};
        add_part(layer_kinds, parts, owner, all);
    }
    for (auto& [name, fabric] : board.fabrics) {
        DesignPlace owner;
        owner.id.part = name;
        owner.fabric = &fabric;
        add_part(fabric_kinds, fabric, owner, all);
    }
    for (auto& [name, material] : board.materials) {
        add_material(material, name, all);
    }
    add_part(mass_only_kinds, board.mass_only, {}, all);
    if (board.cure) {
        add_part(cure_kinds, *board.cure, {}, all);
    }
    add_line_places(board, all);
    return all;
}

std::optional<double> value_now(const DesignPlace& place) {
    if (place.strength != nullptr) {
        return *place.strength;
    }
    if (place.coupon != nullptr) {
        return (*coupon_size(*place.coupon))[place.id.index];
    }
    return place.id.kind->form == DesignForm::scale ? 1 : *place.numbers.front();
}

void set_value(const DesignPlace& place, double value) {
    if (place.strength != nullptr) {
        *place.strength = value;
    }
    if (place.coupon != nullptr) {
        set_coupon_size(*place.coupon, place.id.index, value);
    }
    for (double* number : place.numbers) {
        *number = place.id.kind->form == DesignForm::scale ? *number * value : value;
    }
    if (place.material != nullptr) {
        complete(*place.material);
    }
}

} // namespace vrid
