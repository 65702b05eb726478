#pragma once

#include <string>
#include <vector>

#include "solver/laminate/layup.hpp"

namespace vrid {

/// A layer at one station and the parts of the width where it lies.
struct LayerAcross {
    std::string name, material; ///< as solver/laminate/stack.hpp names them
    double angle = 0;           ///< [rad]
    double thickness = 0;       ///< [m]
    std::vector<Range> y;       ///< from right (-y) to left, touching parts joined [m]
    bool everywhere = false;    ///< over the whole width
};

/// All layers met across the board at station x, upwards. A name that has two thicknesses or angles
/// over the width (a mirrored ribbon at an angle) is listed once for each.
/// \throws InputError if the board has no width at x
std::vector<LayerAcross> layers_across(const Layup<double>& layup, double x);

/// "all", "|y| < 123.1", "|y| 45 to 75" where symmetric, else "-75 to -45" [mm].
std::string text_of_width(const LayerAcross& layer);

} // namespace vrid
