#pragma once

#include <array>
#include <map>
#include <vector>

#include <Eigen/Core>

#include "solver/strength/weakest.hpp"

namespace vrid {

/// A motion at one of two degrees, with what is there before any load.
struct SeenMotion {
    WeakestSearch::Motion motion;
    ResidualAt residual; ///< null: none
};

/// By how much the lower degree sees a failure otherwise, as a share of its factor: in its own
/// least place, and in either degree's place by the fields of both, where it is the same failure
/// whatever its name. Least values of many places may agree by chance while the stresses at each
/// have moved.
/// \param coarse the least by the same way at the lower degree; null: it has none, no_bar
/// \param breaking as a place that breaks: how nearly the lower degree calls it so counts too
double degree_change(WeakestSearch& search, const std::array<SeenMotion, 2>& by_degree,
                     const Weakness& fine, const Weakness* coarse, bool breaking = false);

/// Half width of the bar of a factor found at degree p, as a share of it. \param change as
/// degree_change
double strength_bar(int p, double change);

/// A failure that may be the least in truth, by its factors at two degrees.
struct Rival {
    double fine = 0, coarse = 0;
};

/// Half width of the bar of the least of all failures, as a share of it. Another one that stands
/// behind it may be the least in truth, by the bar that its own change has.
/// \param share of the least by itself
double least_bar(int p, double least, double share, const std::vector<Rival>& rivals);

/// What may be the least in truth, as it is nearly as weak: the weakest of every way by either
/// degree, and a way's other places, each in its place by the fields of both.
/// \param found at the lower degree and at p \param where anywhere or away
/// \param breaking only ways after which the board is broken
std::vector<Rival> rivals(WeakestSearch& search, const std::array<SeenMotion, 2>& by_degree,
                          const std::array<const Weakest*, 2>& found, const Weakness& least,
                          std::map<Way, Weakness> Weakest::*where, bool breaking = false);

/// The steepest slope of a board's motion from rest. \param motion 5 a node [m, rad]
double steepest(const Eigen::VectorXd& motion);

} // namespace vrid
