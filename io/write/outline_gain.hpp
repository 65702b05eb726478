#pragma once

#include "io/write/sense_json.hpp"
#include "io/write/sense_report.hpp"
#include "io/write/vtu.hpp"

namespace vrid {

/// Where to add width, as sense.json has it under "outline".
FoundOutline found_outline(const Sense& sense);

/// The same as fields on the points of a grid that lie on the outline, not a number elsewhere: in
/// percent of each number for 1 mm of width over 100 mm of the outline. \param grid of the mesh of
/// Sense::numbers.outline, even points a quad
void add_outline_gain(const Sense& sense, QuadGrid& grid);

} // namespace vrid
