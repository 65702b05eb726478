#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/write/calibration_json.hpp"
#include "io/write/family_json.hpp"
#include "io/write/lot_document.hpp"
#include "io/write/scatter_json.hpp"
#include "io/write/sense_json.hpp"

namespace vrid {

/// What the design verbs found about a board.
struct Findings {
    std::optional<SenseFindings> sense;
    std::optional<ScatterFindings> scatter;
    std::optional<CalibrationFindings> calibration;
    std::optional<FoundLot> lot;
    std::optional<FoundFamily> family{};
    [[nodiscard]] bool any() const { return sense || scatter || calibration || lot || family; }
};

/// All sections of the page. \param hash of the board that the rest of the page shows; empty: none
std::string findings_html(const Findings& findings, const std::string& hash);

/// Says which of the documents are of another state of the board; empty: none.
/// \param hash as of findings_html
std::string other_states(const Findings& findings, const std::string& hash);

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
/// Strips of all numbers on one axis of time: readings, moving average in its limits, the change
/// and the boards that may be its first, boards that do not belong, press and batches as bands.
std::string lot_strips_picture(const LotStrips& strips, const std::string& id);
/// A number's bells, predicted and found, in its limits.
std::string lot_bell_picture(const FoundLotNumber& one, const std::string& id);
/// A bar a value: its shift in tolerances, with its deviation; the largest first.
std::string lot_shifts_picture(const FoundLot& found, const std::string& id);
std::string lot_section(const FoundLot& found);
/// The outlines of up to six sizes over each other, the middles of their running lengths on one
/// line; empty without outlines.
std::string sizes_picture(const std::vector<FoundSize>& sizes, const std::string& id);
std::string family_section(const FoundFamily& found);

} // namespace vrid
