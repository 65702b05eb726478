#pragma once

#include <array>
#include <optional>
#include <vector>

#include "solver/design/design_kinds.hpp"

namespace vrid {

/// Adds the design values that move lines of the mesh, as far as the board has them: those of a
/// parametric outline, length and width of a coupon, bands, feet, ends of what does not run all
/// along the board, stations. A drawn outline and a polygon have a running length only.
void add_line_places(Board& board, std::vector<DesignPlace>& all);

/// Draws the outline again after values that move lines were set. \throws InputError when no board
/// of that shape exists: the outline cannot close, stations in the wrong order, feet that overlap
/// or do not lie on the board
void redraw(Board& board);

/// Whether it is a place along the board: a station of the core, the rest shape or a mould, an end.
bool is_station(const DesignId& id);

/// Of a parametric outline that had a waist: \throws InputError when it is wider than nose or tail
/// now.
void hold_waist(const Board& board, const Board& was);

/// Length and width of an outline that is a rectangle about the origin, its first corner at the
/// tail on the right; nothing of any other.
std::optional<std::array<double, 2>> coupon_size(const Planform& planform);
/// Another length (0) or width (1); contact stations at the ends stay there.
void set_coupon_size(Planform& planform, std::size_t which, double value);

} // namespace vrid
