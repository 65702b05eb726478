#pragma once

#include "io/write/json_parts.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// The layers as they are laid up, upwards, each {"layer", "of", "where", "thickness_mm" (null of
/// the core), "plies": [{"of", "angle_deg", "gsm" or "mm"}] upwards as they lie in the board,
/// "resin", "resin_gsm"}; then the edge, sidewall and tip spacers, if any.
Json layup_json(const Board& board);

} // namespace vrid
