#pragma once

#include <string>
#include <vector>

namespace vrid {

// Where the theory of the bent board ends.
constexpr double strain_limit = 0.01; ///< small strains
constexpr double tilt_limit = 45;     ///< of a director to its surface [deg]

/// A sentence for each limit that is passed. \param what of whom: "centre-flex bent"
/// \param least_c, most_strain as BentState's
std::vector<std::string> bent_warnings(const std::string& what, double least_c, double most_strain);

// How Newton's steps of a bent board end, on the bench and on its edge.
constexpr int bent_iterations = 15;       ///< more: the step in travel or load is halved
constexpr int bent_halvings = 6;          ///< more: the board cannot be bent as far
constexpr double bent_least_cosine = 0.5; ///< a director tilted further is no plate theory any more
constexpr double bent_energy_wanted = 1e-12;

} // namespace vrid
