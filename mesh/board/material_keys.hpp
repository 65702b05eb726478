#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "mesh/board/material.hpp"

namespace vrid {

/// A key of a material and where its value lives: one of three members is set.
struct MaterialKey {
    std::string_view key;
    double Material::*value = nullptr;
    std::optional<double> Strengths::*strength = nullptr;
    bool required = false; ///< the constants on which all numbers depend
    bool follows = false;  ///< has no value of its own: the second expansion of an isotropic one
    bool of_cure = false;  ///< moves numbers of a board with a cure only
    /// Instead of `value`, one that may be absent.
    std::optional<double> Material::*optional = nullptr;
    double otherwise = 0; ///< what `value` is when nothing is said
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
