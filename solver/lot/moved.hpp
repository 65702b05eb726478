#pragma once

#include <utility>
#include <vector>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// Of p: a centre above it, or what a set of shifts leaves of one, is as predicted.
constexpr double as_predicted = 0.05;

/// How far a value moved, SI.
struct ValueShift {
    Eigen::Index value = 0;
    double shift = 0, sd = 0;
};

/// A few values whose shifts explain the lot's centre.
struct LotExplanation {
    double p = 0; ///< of what remains
    std::vector<ValueShift> shifts;
};

/// What moved, as far as the centre tells.
struct LotMoved {
    double statistic = 0; ///< of the centre about the prediction, nothing moved
    int degrees = 0;
    double p = 1;
    bool explained = false; ///< the first explanation fits: as predicted
    /// Of the first size that fits, else of the largest size tried the one that fits best.
    std::vector<LotExplanation> explanations;
    std::vector<ValueShift> held; ///< all free values at once, each held by its deviation
    std::vector<std::pair<Eigen::Index, Eigen::Index>> alike; ///< told apart badly: cosine > 0.9
};

/// Shortest explanations of the centre: all sets of one, then two, then three free values, shifts
/// by least squares with weight (C + B)^-1, until sets reach p > 0.05; of these the least
/// sum (shift / s)^2 first, twenty at most. None is sought when the centre itself has p > 0.05, and
/// a set with a shift of more than fifty deviations (common practice, no source) or beyond the
/// model's least and most is none.
/// \param centre about the model's mean
LotMoved lot_moved(const LotModel& model, const LotCentre& centre);

/// Shifts of some values alone, by least squares. \returns false where they cannot be told apart
bool shifts_of(const LotModel& model, const LotCentre& centre,
               const std::vector<Eigen::Index>& values, LotExplanation& explanation);

} // namespace vrid
