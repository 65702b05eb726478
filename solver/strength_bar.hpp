#pragma once

#include <array>
#include <map>

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

/// Half width of the bar of the least of all ways, as a share of it. A way that stands behind it
/// may be the least in truth, by the bar that the change of its own least stress has.
/// \param share of the least by itself \param ways at the lower degree and at p
/// \param breaking only ways after which the board is broken
double least_bar(int p, const Weakness& least, double share,
                 const std::array<const std::map<Way, Weakness>*, 2>& ways, bool breaking = false);

/// The steepest slope of a board's motion from rest. \param motion 5 a node [m, rad]
double steepest(const Eigen::VectorXd& motion);

} // namespace vrid
