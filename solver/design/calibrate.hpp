#pragma once

#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/design/bench.hpp"
#include "solver/design/open_directions.hpp"
#include "solver/design/session.hpp"

namespace vrid {

/// A design value after the fit, SI.
struct FittedValue {
    DesignId id;
    double before = 0, after = 0;
    std::optional<double> prior_sd; ///< before the readings; nothing: unknown
    double sd = 0;                  ///< after them, model and readings taken at their word
    bool at_limit = false;          ///< the fit stopped at its min or max
};

/// A reading and what the board gives, SI.
struct FittedReading {
    BenchReading reading;
    Quantity before, after;
    double residual = 0; ///< (reading - after) over its own expected deviation; beyond 3: no fit
    bool fits = true;
};

/// Two values that the readings cannot tell apart.
struct Indistinct {
    std::size_t one = 0, other = 0; ///< in Calibration::values
    double alignment = 0;           ///< cosine between what the two do to the readings, 1: the same
};

struct Calibration {
    std::vector<FittedValue> values;
    std::vector<FittedReading> readings;
    Eigen::MatrixXd correlation; ///< of the fitted values
    std::vector<Indistinct> indistinct;
    std::vector<std::size_t> untouched; ///< values of which the readings say next to nothing
    std::vector<OpenDirection> open;    ///< of values that the readings tell together only
    double misfit = 0;                  ///< sum of squared (reading - after) / sd
    int solves = 0;
    std::vector<std::string> warnings;
};

/// Regularised least squares (Gauss and Newton, with limits): the least of
/// sum ((r(p) - m) / sd)^2 + sum ((p - p0) / prior sd)^2. Deviations after the fit are those of the
/// linear model at the answer: (J^T W J + prior)^-1, values at a limit held. \throws InputError
/// when readings and priors together leave a value open, SolveError when it does not settle
/// \param session of the board as designed; it ends at some values of the fit
Calibration calibrate(Session& session, const Bench& bench);

} // namespace vrid
