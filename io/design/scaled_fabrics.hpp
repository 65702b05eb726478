#pragma once

#include <functional>
#include <string>

#include "io/read/read_board.hpp"

namespace vrid {

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

} // namespace vrid
