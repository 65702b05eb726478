#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// Widths of the strips of a pattern that lie within a half width, repeats together [m].
std::vector<double> widths_within(const std::vector<Strip>& strips, double half);

/// What strips are in a smeared core, or in one half of it. It stands in stretches along the board,
/// between the stations at which a strip begins or ends.
struct StripMix {
    std::vector<double> breaks;             ///< between stretches 0..n, rising [m]
    std::vector<std::vector<double>> share; ///< of each strip of the pattern in each stretch
};

/// Of both halves of a board's smeared core.
struct CoreMix {
    StripMix left;                 ///< y > 0, or both halves
    std::optional<StripMix> right; ///< y < 0, when it has strips of its own
};

/// A pattern that repeats at least twice within the widest half width has its own shares (the last
/// one, cut by the outline, makes up to 0.3 % of a stiffness). A wider one has the shares of each
/// strip in the plan area of its stretch: it is cut off at the outline or the sidewall, and at the
/// tip spacer, so that strips that never fit do not count; smooth in the lengths of the outline.
/// \param board has a core
CoreMix core_mix(const Board& board);

/// The areas of strips in each stretch of some halves, and of all strips together [m2].
struct StripAreas {
    StripMix mix; ///< areas for shares
    std::vector<double> all;
    bool repeated = false; ///< so often that the outline does not count
};
/// \param sides 1: y > 0, -1
StripAreas strip_areas(const Board& board, const std::vector<Strip>& strips,
                       const std::vector<double>& sides);

/// The stretch of a mix that holds station x.
std::size_t stretch_at(const StripMix& mix, double x);

/// Width of the pattern [m].
double pattern_width(const std::vector<Strip>& strips);

/// What a strip is of at station x.
const std::string& strip_material(const std::vector<Strip>& strips, std::size_t i, double x);

} // namespace vrid
