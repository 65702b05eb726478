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
    bool required = false;
};

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
