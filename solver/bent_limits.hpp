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

} // namespace vrid
