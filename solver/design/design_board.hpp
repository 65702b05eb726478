#pragma once

#include <memory>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// A value that stands in a board and follows a design value.
struct Follower {
    double* place = nullptr; ///< in the DesignBoard's own board
    double slope = 0;        ///< derivative of the value there by the design value, both SI
};

/// What a person can change without moving the mesh, by path.
struct DesignValue {
    std::string path;  ///< "core.thickness_mm[3]", "layer.base.angle_deg"
    std::string range; ///< its key without names: "core.thickness_mm", tells unit and range
    double value = 0;  ///< SI; 1 for a scale
    std::vector<Follower> followers;
};

/// A board taken apart for derivatives: every layer has its fabric to itself.
struct DesignBoard {
    std::unique_ptr<Board> board; ///< the followers' places are in it
    std::vector<DesignValue> values;
};

/// A copy of the board with all its design values: core.thickness_scale, core.thickness_mm[i],
/// layer.NAME.angle_deg, .thickness_mm and .areal_weight_scale, fabric.NAME.fibre_volume_fraction,
/// material.NAME with the elastic constants and the density, mass_only.resin_gsm. Strengths and
/// expansions change no number yet and are not among them. (Also a fabric's name is a design value,
/// but no number; see io/design_values.)
DesignBoard design_board(const Board& board);

} // namespace vrid
