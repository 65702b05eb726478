#pragma once

#include <string>
#include <string_view>

namespace vrid {

/// The physical range of a value, in the unit its key names. Outside it is an input error.
struct Accepted {
    std::string key; ///< table kind and key: "planform.waist_width_mm", "fabric.plies.angle_deg"
    double min = 0, max = 0;
    bool min_open = false, max_open = false; ///< the bound itself is refused
};

/// The range for a key. \throws std::logic_error for a key that has none (a reader asks only for
/// keys of the board file, board_keys.hpp, and of the table in accepted.cpp).
const Accepted& accepted(std::string_view key);

bool is_accepted(const Accepted& range, double value); ///< false for nan and infinities
/// "a number above 0 and up to 1000 (mm)".
std::string accepted_text(const Accepted& range);
/// A number as a person would write it: six digits, no trailing zeros.
std::string number_text(double value);

} // namespace vrid
