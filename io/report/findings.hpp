#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/report/found_lot.hpp"
#include "io/write/calibration_json.hpp"
#include "io/write/family_json.hpp"
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
/// The outlines of up to six sizes over each other, the middles of their running lengths on one
/// line; empty without outlines.
std::string sizes_picture(const std::vector<FoundSize>& sizes, const std::string& id);
std::string family_section(const FoundFamily& found);

} // namespace vrid
