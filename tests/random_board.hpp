#pragma once

#include "io/materials/material_library.hpp"
#include "mesh/board/board.hpp"

namespace vrid::tests {

/// A board or coupon that a shop could describe, made of library materials; the same for ever by
/// seed. Planform, core profile, bands, patches and ribbons at any angle, fabrics turned and
/// flipped, and a layup that is symmetric by chance only.
Board random_board(unsigned seed, const MaterialLibrary& library);

} // namespace vrid::tests
