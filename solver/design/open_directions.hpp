#pragma once

#include <vector>

#include "mesh/board/eigen_names.hpp"

namespace vrid {

/// A change of several values together that the readings do not tell: each alone may be told, this
/// is not.
struct OpenDirection {
    Eigen::VectorXd step;      ///< by value, of length one in deviations of their tolerances
    double sd_left = 1;        ///< deviation along it after the readings over the one before
    double largest_effect = 0; ///< on a reading, in its deviations
};

/// Directions along which the readings leave more than 95 % of the deviation that the tolerances
/// give, of two values or more: eigenvectors of J^T J in deviations of the tolerances, values
/// without a tolerance following as the readings want.
/// \param J readings x values, both in their deviations (of a value without a tolerance in any
/// unit) \param prior per value: 1, or 0 for one without a tolerance \param held values that do not
/// move
std::vector<OpenDirection> open_directions(const Eigen::MatrixXd& J, const Eigen::VectorXd& prior,
                                           const std::vector<bool>& held);

} // namespace vrid
