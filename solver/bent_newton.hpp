#pragma once

namespace vrid {

// How Newton's steps of a bent board end, on the bench and on its edge.
constexpr int bent_iterations = 15;       ///< more: the step in travel or load is halved
constexpr int bent_halvings = 6;          ///< more: the board cannot be bent as far
constexpr double bent_least_cosine = 0.5; ///< a director tilted further is no plate theory any more
constexpr double bent_energy_wanted = 1e-12;

} // namespace vrid
