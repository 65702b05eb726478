#pragma once

#include <string>
#include <vector>

#include "io/design/read_lot.hpp"
#include "io/design/read_rig.hpp"
#include "io/materials/material_library.hpp"
#include "solver/design/session.hpp"
#include "solver/lot/lot_study.hpp"

namespace vrid {

/// A lot's model with what its values and groups are called.
struct LotBoard {
    LotModel model;
    std::vector<DesignId> values;    ///< with a deviation, and moving a reading
    std::vector<double> nominal;     ///< of each, SI
    std::vector<std::string> groups; ///< entries of [tolerance], the board's or the library's
    std::vector<std::string> warnings;
};

/// Noise and bias of each column, SI: by the rig's file, else of repeats (pooled, five or more).
/// \throws InputError with all columns that have neither
struct LotRig {
    std::vector<double> sd, bias_sd;
    std::vector<bool> of_repeats;
};
LotRig rig_of(const Lot& lot, const Rig& rig);

/// Predicts the lot's columns for the board as designed, by one solve. \throws InputError for a
/// value measured itself that has no tolerance, and for a [[free]] of what no reading sees
LotBoard lot_board(Session& session, const Lot& lot, const Rig& rig, const LotRig& deviations,
                   const MaterialLibrary& library);

/// The columns predicted again with values shifted; the model's mean is what it says of no shift.
/// As it was, if the values there are hardly possible: farther than five deviations, or not above
/// zero.
LotModel model_at(Session& session, const Lot& lot, const LotBoard& board,
                  const std::vector<ValueShift>& shifts);

/// The rows of more numbers and of values measured themselves, by the model's values.
struct NextCandidates {
    std::vector<std::string> names;
    Eigen::MatrixXd slopes;
    Eigen::VectorXd rig_sd;
};
/// All that a shop can measure and the lot has not: bench cases, frequencies, EI, thickness at the
/// stations, each value of interest itself. The rig's noise, where its file says nothing: 0.7 %.
NextCandidates next_candidates(Session& session, const Lot& lot, const Rig& rig,
                               const LotBoard& board, const std::vector<Eigen::Index>& interest);

} // namespace vrid
