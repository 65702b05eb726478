#pragma once

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"

namespace vrid {

struct CalibratedValue {
    std::string path, unit;
    double before = 0, after = 0, sd = 0;
    OrNull<double> prior_sd; ///< nothing: open
    bool at_limit = false;
};
VRID_FIELDS(CalibratedValue, 8, path, before, after, sd, prior_sd, unit, at_limit)
void check_part(const CalibratedValue& one);

struct CalibratedReading {
    std::string number, unit;
    double value = 0, sd = 0; ///< of the bench
    BenchQuantity before, after;
    double residual = 0; ///< (value - after) over its expected deviation
    bool fits = true;
};
VRID_FIELDS(CalibratedReading, 8, number, value, sd, unit, before, after, residual, fits)
void check_part(const CalibratedReading& one);

/// Two values that no reading tells apart.
struct IndistinctPair {
    std::string a, b;
    Later<double> alignment;
};
VRID_FIELDS(IndistinctPair, 4, a, b, alignment)

struct ChangedValue {
    std::string path, unit;
    double change = 0;
};
VRID_FIELDS(ChangedValue, 4, path, change, unit)

/// Values that change together without a reading that tells.
struct LeftOpen {
    std::vector<ChangedValue> step;
    double sd_left = 0, largest_effect = 0;
};
VRID_FIELDS(LeftOpen, 4, step, sd_left, largest_effect)

/// The document calibration.json.
struct CalibrationFindings {
    int format = 1;
    std::string program;
    BoardEntry board;
    std::vector<CalibratedValue> values;
    std::vector<std::vector<double>> correlation; ///< rows in the order of `values`
    std::vector<CalibratedReading> readings;
    std::vector<IndistinctPair> indistinct;
    std::vector<std::string> untouched; ///< paths
    Later<std::vector<LeftOpen>> open;
    Later<double> misfit;
    Later<int> solves;
    std::vector<std::string> warnings;
    Later<std::string> caution{vrid::caution};
};
VRID_FIELDS(CalibrationFindings, 8, format, program, board, values, correlation, readings,
            indistinct, untouched, open, misfit, solves, warnings, caution)

/// \param file names it in errors \throws InputError for damaged text, another document, another
/// format, numbers that cannot be
CalibrationFindings read_calibration(const std::string& text, const std::string& file);

} // namespace vrid
