#pragma once

#include "io/write/json_parts.hpp"
#include "io/write/sense_report.hpp"
#include "io/write/vtu.hpp"

namespace vrid {

/// Where to add width, as sense.json has it under "outline": `drawn` (the outline's points), by
/// vertex along it `at` and `outward` (pairs), `length` of the outline that goes by it, all in mm;
/// `gains`: of each number (of, unit per mm of width and mm of outline, gain by vertex); `omitted`:
/// number and why.
Json outline_gain_json(const Sense& sense);

/// The same as fields on the points of a grid that lie on the outline, not a number elsewhere: in
/// percent of each number for 1 mm of width over 100 mm of the outline. \param grid of the mesh of
/// Sense::numbers.outline, even points a quad
void add_outline_gain(const Sense& sense, QuadGrid& grid);

} // namespace vrid
