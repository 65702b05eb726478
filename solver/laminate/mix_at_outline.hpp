#pragma once

#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// Where a smeared core ends across: a move of the outline's place outwards by a metre adds `by` to
/// the area of a strip in a stretch [m].
struct MixBorder {
    OutlinePlace place;
    std::size_t stretch = 0, strip = 0;
    double by = 0;
};
/// How the mix of a half depends on the outline: a strip's share is its area over that of the
/// stretch. No border where the pattern repeats.
struct MixAtOutline {
    std::vector<double> area; ///< of each stretch [m2]
    std::vector<MixBorder> border;
};
/// Of both halves together, or of the left one and the right one. \param board has a core
std::vector<MixAtOutline> core_mix_at_outline(const Board& board);

} // namespace vrid
