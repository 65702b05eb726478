#pragma once

#include <cmath>
#include <random>

#include "mesh/board/board.hpp"

namespace vrid::tests {

/// The board with a core of one foam, its modulus anywhere from 1 MPa to 1 GPa, evenly by its
/// logarithm; the same for ever by seed. A board without a core stays as it is.
inline Board with_soft_core(Board board, unsigned seed) {
    if (!board.core) {
        return board;
    }
    std::mt19937 random(seed);
    constexpr double nu = 0.3;
    Material foam;
    foam.name = "foam";
    foam.isotropic = true;
    foam.E1 = foam.E2 = std::pow(10, 6 + 3 * static_cast<double>(random()) / 4294967296.0);
    foam.nu12 = nu;
    foam.G12 = foam.G13 = foam.G23 = foam.E1 / (2 * (1 + nu));
    foam.density = 80;
    board.materials["foam"] = foam;
    board.core->strips = {{"foam", 0.02, std::nullopt, ""}};
    board.core->resolve = false;
    return board;
}

} // namespace vrid::tests
