#pragma once

#include <string>

namespace vrid {

/// What stands in every report, in JSON documents ("caution") and in the README.
constexpr const char* caution =
    "The numbers are predictions of stiffness and load from nominal values. They are no proof of "
    "strength or safety: a board can break and hurt its rider. Before anyone rides a new "
    "construction, test it on the bench to the standards in force where it is sold, under the "
    "responsibility of a qualified engineer; local rules come first. Follow the data sheets for "
    "resins, fibres and dust.";

/// The same in one sentence, below the numbers of a verb and in its help.
constexpr const char* short_caution =
    "Predictions of stiffness from nominal values, no proof of strength or safety: test a new "
    "construction on the bench before anyone rides it.";

/// The sentence as lines for a terminal, after an empty one.
std::string caution_text();

/// Name and version as results record it: "vrid 1.0.0".
std::string program_name();

} // namespace vrid
