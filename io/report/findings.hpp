#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/report/found_family.hpp"
#include "io/report/found_lot.hpp"
#include "io/write/number.hpp"

namespace vrid {

/// What every document says of itself.
struct FindingHead {
    std::string program, board, hash;
    std::vector<std::string> warnings;
    std::string file{}; ///< "board.toml, last changed on 2026-11-28"; empty: not told
};

/// What one workshop step of a design value does to a number.
struct StepChange {
    std::string path;
    std::optional<double> x;       ///< of a core station [mm]
    double step = 0;               ///< in step_unit
    std::string step_unit;         ///< "mm"; empty: a pure number
    double change = 0;             ///< of the number, in its unit
    std::optional<double> percent; ///< of the number; nothing for a position or a zero
};

struct SensedNumber {
    std::string name;
    BenchQuantity quantity;
    std::vector<StepChange> steps;  ///< largest first
    std::vector<double> widening{}; ///< by vertex of the outline: percent per mm over 100 mm
};

/// Where to add width: the outline and its vertices [mm].
struct FoundOutline {
    std::vector<std::pair<double, double>> drawn, at, outward;
    std::vector<std::pair<std::string, std::string>> omitted; ///< number, why
};

/// What sense.json holds.
struct SenseFindings {
    FindingHead head;
    std::vector<SensedNumber> numbers;
    std::optional<FoundOutline> outline{};
};

/// A source of scatter; yields are shares 0..1.
struct FoundSource {
    std::string name;
    double sd = 0, share = 0, sd_if_halved = 0;
    std::optional<double> yield_if_halved;
};

/// Mean and spread, found in one way.
struct FoundSpread {
    double mean = 0, sd = 0, p5 = 0, p95 = 0;
    std::optional<double> yield, yield_error;
    double sd_error = 0; ///< one standard error; 0: none
};

struct Histogram {
    double from = 0, width = 0; ///< width 0: there is none
    std::vector<double> counts;
};

struct ScatteredNumber {
    std::string name;
    BenchQuantity quantity;
    FoundSpread first_order;
    std::optional<double> min, max; ///< limits
    std::vector<FoundSource> sources;
    std::optional<FoundSpread> sampled;    ///< by the samples alone
    std::optional<FoundSpread> controlled; ///< by them with the linear model
    Histogram histogram;
};

/// What scatter.json holds.
struct ScatterFindings {
    FindingHead head;
    int samples = 0;
    std::vector<ScatteredNumber> numbers;
};

struct CalibratedValue {
    std::string path, unit;
    double before = 0, after = 0, sd = 0;
    std::optional<double> prior_sd; ///< nothing: open
    bool at_limit = false;
};

struct CalibratedReading {
    std::string name, unit;
    double bench = 0, sd = 0;
    BenchQuantity before, after;
    double residual = 0; ///< (bench - after) over its expected deviation
    bool fits = true;
};

/// What calibration.json holds.
struct CalibrationFindings {
    FindingHead head;
    std::vector<CalibratedValue> values;
    std::vector<CalibratedReading> readings;
    std::vector<std::pair<std::string, std::string>> indistinct;
    std::vector<std::string> untouched;
    std::vector<std::string> correlated; ///< "a and b, 0.95": beyond 0.9
};

/// What the design verbs found about a board.
struct Findings {
    std::optional<SenseFindings> sense;
    std::optional<ScatterFindings> scatter;
    std::optional<CalibrationFindings> calibration;
    std::optional<FoundLot> lot;
    std::optional<FoundFamily> family{};
    [[nodiscard]] bool any() const { return sense || scatter || calibration || lot || family; }
};

// Documents as text to what they hold. `file` names them in errors.
// \throws InputError for damaged text, another document, another format, numbers that cannot be
SenseFindings read_sense(const std::string& text, const std::string& file);
ScatterFindings read_scatter(const std::string& text, const std::string& file);
CalibrationFindings read_calibration(const std::string& text, const std::string& file);

/// All sections of the page. \param hash of the board that the rest of the page shows; empty: none
std::string findings_html(const Findings& findings, const std::string& hash);

// Its parts. `id` is unique on the page; pictures are empty when there is nothing to draw.
std::string sense_picture(const SensedNumber& number, const std::string& id);
/// Percent for 0.1 mm of core at each station.
std::string core_stations_picture(const SensedNumber& number, const std::string& id);
/// What a millimetre of width does, place by place along the outline.
std::string widening_picture(const FoundOutline& outline, const SensedNumber& number,
                             const std::string& id);
std::string bell_picture(const ScatteredNumber& number, const std::string& id);
std::string sources_picture(const ScatteredNumber& number, const std::string& id);
/// "97.2 % of boards are inside the limits ..., about 1 in 36 is not."
std::string yield_words(const ScatteredNumber& number);
std::string values_picture(const std::vector<CalibratedValue>& values, const std::string& id);
std::string readings_picture(const std::vector<CalibratedReading>& readings, const std::string& id);
std::string sense_section(const SenseFindings& found);
std::string scatter_section(const ScatterFindings& found);
std::string calibration_section(const CalibrationFindings& found);

} // namespace vrid
