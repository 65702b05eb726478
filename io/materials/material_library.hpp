#pragma once

#include <map>
#include <string>

#include "mesh/board/board.hpp"
#include "mesh/board/layup.hpp"
#include "mesh/board/material.hpp"

namespace vrid {

/// Materials and fabrics by name, as the program ships them: what a board file may name without
/// defining it.
struct MaterialLibrary {
    std::string folder; ///< where it was read; empty: compiled in
    std::map<std::string, Material> materials;
    std::map<std::string, Fabric> fabrics;
    /// Of what no board file says, by design value path or pattern, each with its source.
    std::map<std::string, ToleranceEntry> tolerance;
};

/// The folder that the environment variable VRID_MATERIALS names; empty if it is not set.
/// \throws InputError if it is no folder
std::string material_library_folder();

/// Reads every *.toml file in the folder. \throws InputError with all problems of all files: broken
/// values, a value or tolerance without a source, a name given twice, a fabric of unknown
/// materials.
MaterialLibrary read_material_library(const std::string& folder);

/// The library of material_library_folder(), else the one that vrid ships.
MaterialLibrary load_material_library();

} // namespace vrid
