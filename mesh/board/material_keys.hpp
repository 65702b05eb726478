#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "mesh/board/material.hpp"

namespace vrid {

/// A key of a material and where its value lives: one of the two members is set.
struct MaterialKey {
    std::string_view key;
    double Material::*value = nullptr;
    std::optional<double> Strengths::*strength = nullptr;
    bool required =
        false;            ///< the constants on which numbers depend; strengths, expansions: not yet
    bool follows = false; ///< has no value of its own: the second expansion of an isotropic one
};

/// An isotropic material has one modulus and one expansion: sets the others, which follow from
/// them. Does nothing to an orthotropic one.
void complete(Material& material);

/// The keys of an isotropic or an orthotropic material, in the order they are shown.
const std::vector<MaterialKey>& material_keys(bool isotropic);

/// A value that a material has.
struct MaterialValue {
    std::string key;  ///< as the file writes it, "E1_GPa"
    double value = 0; ///< SI
};

/// The values that a material has; an expansion counts when it has a source or is not zero.
std::vector<MaterialValue> material_values(const Material& material);

} // namespace vrid
