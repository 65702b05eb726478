#pragma once

#include <vector>

#include "solver/response/edge_curve.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// Bars of edge_numbers found at `degree` and one degree below, in the same order ("balance" has
/// none); no_bar at degree 1, where `coarse` is not looked at. These numbers are no energies: the
/// change of one can pass zero by chance where that of its neighbours does not. So the shares have
/// the largest bar among them, the losses and the roll moments theirs; the peak, its place and the
/// effective length at least the shares' bar, the depth at least the peak's, contact and losses a
/// part of that, and the turn radius the losses' (in radians), as parts of the whole.
void set_edge_bars(std::vector<NamedQuantity>& fine, const std::vector<NamedQuantity>& coarse,
                   int degree);

/// What both degrees have in common, by the curve of evenly spaced points: the effective length's
/// sum over the snow's points, which an end of contact passes in steps, against that over the
/// curve; and of peaks alike by the peak's bar any may be the highest.
/// \pre `numbers` have bars
void widen_by_curve(std::vector<NamedQuantity>& numbers, const EdgeCurve& curve);

} // namespace vrid
