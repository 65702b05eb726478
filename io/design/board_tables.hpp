#pragma once

#include <functional>
#include <string>

#include "io/design/board_draft.hpp"
#include "io/read/read_board.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/layup.hpp"
#include "mesh/board/material.hpp"

namespace vrid {

/// A material as a table of a board file, [material.NAME] with its note, values and sources, lines
/// ended by \n.
std::string material_table(const Material& material);

/// A fabric as a table of a board file, [fabric.NAME] with its note and plies.
std::string fabric_table(const Fabric& fabric);

/// Writes the values that move lines of the mesh and differ between the two boards into the draft
/// of the first one's file. \throws InputError for one that the file itself does not hold
void edit_lines(BoardDraft& draft, const Board& was, const Board& wanted);

/// Where the scaled fabrics of a board come from.
struct ScaledFrom {
    const NamedBoard& was; ///< before all changes
    const Board& base;     ///< with all changes but the scales of areal weight
    std::function<bool(const std::string& fabric)> in_file; ///< its table is in the board file
};

/// Gives the scaled fabrics of a changed board (apply_changes) the names that they are to have in
/// its file. Where no layer keeps a fabric as it was, and the file or its [tolerance] has its name,
/// the first scaled layer takes that name: the fabric changes in place. Else a scaled fabric gets a
/// name of its own. Layers that are scaled alike share one.
void name_scaled_fabrics(Board& changed, const ScaledFrom& from);

/// Whether the plies of two fabrics have the same weights and thicknesses.
bool same_plies(const Fabric& a, const Fabric& b);

/// The first place where the sections of two boards differ by more than the rounding of numbers to
/// twelve digits; empty if nowhere. Names of fabrics may differ, what they are made of may not.
/// Materials and fabrics that no layer or part uses do not count.
std::string section_difference(const Board& a, const Board& b);

} // namespace vrid
