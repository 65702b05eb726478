#pragma once

#include <Eigen/Core>

namespace vrid {

/// The top of a curve told at points: that of the parabola through three neighbours, so that it
/// does not jump from point to point. A place that is there twice ends a segment, where the curve
/// may have a kink: no parabola crosses it, but the top may lie beside it.
struct CurvePeak {
    double x = 0, value = 0;
    Eigen::MatrixX2d slopes; ///< of value (first) and x by the value at every point
};

/// \param at the point of the largest value, or one near by, held for derivatives
CurvePeak curve_peak(const Eigen::VectorXd& x, const Eigen::VectorXd& value, Eigen::Index at);

} // namespace vrid
