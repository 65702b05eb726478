#pragma once

#include "solver/laminate/section.hpp"

namespace vrid::tests {

struct LaminateStrain {
    Eigen::Vector3d e, k; ///< of the reference plane; [1/m]
};

/// Of a free laminate under forces N [N/m] and moments M [N]: all six equations solved at once.
LaminateStrain laminate_strain(const Section<double>& section, const Eigen::Vector3d& N,
                               const Eigen::Vector3d& M);

} // namespace vrid::tests
