#pragma once

#include <string>
#include <variant>
#include <vector>

#include "io/materials/material_library.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/design_board.hpp"

namespace vrid {

/// A design value is set: what `set` of a suite says, and what a fit changes.
struct Change {
    std::string path;                        ///< "core.thickness_mm[3]", "layer.base.angle_deg"
    std::variant<double, std::string> value; ///< as the file writes it, in the unit the path names
    std::string place;                       ///< for messages; "file:line:column", may be empty
};

/// The paths that can be set, sorted: the numbers that solver/design/design_kinds lists, and
/// layer.NAME.fabric.
std::vector<std::string> design_value_paths(const Board& board);

/// Those of them that leave the lines of the mesh where they are, sorted.
std::vector<std::string> still_value_paths(const Board& board);

/// Sets the values. Whatever their order: fabrics first, then values, then scales, which multiply
/// what they find; last the outline is drawn again. `named` holds what a layer may take as its new
/// fabric. \throws InputError with all problems: a path that this board does not have, a value
/// out of its physical range, a material that no longer exists in nature, a shape of which no board
/// is
void apply_changes(Board& board, const std::vector<Change>& changes, const MaterialLibrary& named);

/// A copy of the board with some values set. \throws InputError as apply_changes
Board with_values(const Board& board, const SetValues& set, const MaterialLibrary& named);

} // namespace vrid
