#pragma once

#include <vector>

#include "solver/strength/weakest.hpp"

namespace vrid {

/// What the search at one degree found for a case.
struct FoundFailures {
    Weakest weakest;
    const Weakness* first = nullptr; ///< least of all; null: none
    const Weakness* away = nullptr;
    const Weakness* breaking = nullptr;
};

/// Sets the three from `weakest`, in which they point: it must not move any more.
void pick(FoundFailures& found);

/// The weaknesses behind the first, the nearest three, least first. They point into `found`.
std::vector<const Weakness*> next_weaknesses(const FoundFailures& found);

/// The ways of the smallest factors, which are worth a closer look.
std::vector<Way> leading_ways(const Weakest& weakest);

} // namespace vrid
