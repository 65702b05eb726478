#pragma once

#include <string>

#include "board_file_numbers.hpp"

namespace vrid::tests {

/// A random [planform] and where other things of the board can stand. [mm]
struct RandomOutline {
    std::string toml; ///< the table
    std::string csv;  ///< of a drawn outline, named outline.csv; else empty
    double tail = 0, nose = 0;
    double contact = 0; ///< half the running length
    /// Half widths to left and right that the board has at least, within 0.9 of the running length.
    double left = 0, right = 0;
};

/// Parametric, drawn, rectangle or polygon; a board, a coupon of some millimetres, or metres long.
RandomOutline random_outline(FileNumbers& numbers);

} // namespace vrid::tests
