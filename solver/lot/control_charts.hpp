#pragma once

#include <optional>

#include "mesh/board/eigen_names.hpp"

namespace vrid {

/// Exponentially weighted moving average of a series: z_i = w y_i + (1 - w) z_(i-1), z_0 = start.
/// A value that is nan is passed over: z stays, its variance too. (NIST/SEMATECH e-Handbook of
/// Statistical Methods, 6.3.2.4)
struct Ewma {
    Eigen::VectorXd line;
    Eigen::VectorXd half_width; ///< three deviations, exact from the first value on
};
Ewma ewma(const Eigen::VectorXd& values, double start, double weight, double sd);

/// Tabular cumulative sums about a target (NIST/SEMATECH e-Handbook, 6.3.2.3).
struct Cusum {
    Eigen::VectorXd upper, lower;       ///< both from 0 up
    std::optional<Eigen::Index> signal; ///< first value with a sum above h
};
/// \param k slack on each value, in its unit \param h the sum that signals
Cusum cusum(const Eigen::VectorXd& values, double target, double k, double h);

} // namespace vrid
