#pragma once

#include "mesh/lines.hpp"

namespace vrid {

/// Where the outline turns inwards its parallels go round the corner: lines from there to the
/// ends of their arcs (to the middle of a short arc) keep bands four-sided.
void add_corner_fans(const Planform& planform, MeshLines& lines);

/// Whether lines and outline are their own mirror image in y = 0.
bool is_symmetric(const Planform& planform, const MeshLines& lines);

} // namespace vrid
