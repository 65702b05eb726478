#pragma once

#include <array>

#include <Eigen/Core>

#include "solver/strength/weakest.hpp"

namespace vrid {

/// A motion at one of two degrees, with what is there before any load.
struct SeenMotion {
    WeakestSearch::Motion motion;
    ResidualAt residual; ///< null: none
};

/// By how much the lower degree sees a failure otherwise, as a share of its factor: in its own
/// least place, and in either degree's place by the fields of both. Least values of many places may
/// agree by chance while the stresses at each have moved.
/// \param coarse the least by the same way at the lower degree; null: it has none, no_bar
double degree_change(WeakestSearch& search, const std::array<SeenMotion, 2>& by_degree,
                     const Weakness& fine, const Weakness* coarse);

/// Half width of the bar of a factor found at degree p, as a share of it. \param change as
/// degree_change
double strength_bar(int p, double change);

/// The steepest slope of a board's motion from rest. \param motion 5 a node [m, rad]
double steepest(const Eigen::VectorXd& motion);

} // namespace vrid
