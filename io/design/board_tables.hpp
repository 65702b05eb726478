#pragma once

#include <string>

#include "mesh/board/layup.hpp"
#include "mesh/board/material.hpp"

namespace vrid {

/// A material as a table of a board file, [material.NAME] with its note, values and sources, lines
/// ended by \n.
std::string material_table(const Material& material);

/// A fabric as a table of a board file, [fabric.NAME] with its note and plies.
std::string fabric_table(const Fabric& fabric);

} // namespace vrid
