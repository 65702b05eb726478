#pragma once

#include <string_view>
#include <vector>

namespace vrid {

/// A file of the material library that vrid ships, as it stands in io/materials.
struct ShippedFile {
    std::string_view name, text;
};

/// All of them, sorted by name; compiled in (CMakeLists.txt writes the source), so that the library
/// is there wherever program and library are put.
std::vector<ShippedFile> shipped_materials();

} // namespace vrid
