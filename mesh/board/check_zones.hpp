#pragma once

#include "mesh/board/board_fault.hpp"

namespace vrid {

/// A range of stations that must reach the board. \param planform null: not known
void check_stations(const std::optional<Range>& x, const Planform* planform, PartCheck& check);

/// The zones of a layer: ranges in order, ribbons with a direction, polygons whose sides do not
/// cross, all on the board; and no mirror image on the layer itself. \param planform null: not
/// known
void check_zones(const Layer& layer, const Planform* planform, PartCheck& check);

} // namespace vrid
