#pragma once

#include <string>

#include "io/materials/material_library.hpp"
#include "mesh/board/board.hpp"

namespace vrid::tests {

/// The material library of the sources.
const MaterialLibrary& shipped_library();

/// The board of an example, by its folder: "nh-157-biax".
Board shipped_board(const std::string& example);

} // namespace vrid::tests
