#pragma once

#include <vector>

#include "mesh/line_graph.hpp"

namespace vrid {

/// Takes out, at every vertex where two edges leave at less than 8 degrees (25 if one is soft), the
/// one of lower rank; then edges that end nowhere, and joins edges that nothing separates any more.
/// What was taken out of a line is appended to `omitted`.
void drop_grazing_lines(LineGraph& graph, std::vector<Omission>& omitted);

} // namespace vrid
