#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace vrid {

/// A number of the lot over its boards; nan: not measured.
struct LotStrip {
    std::string name, unit;
    double centre = 0;
    std::vector<double> readings, ewma, half_width;
};

/// A number as predicted and as found, in its unit.
struct LotBell {
    std::string name, unit;
    double predicted = 0, predicted_sd = 0, found = 0, found_sd = 0;
    std::optional<double> min, max; ///< limits
};

/// A shift over the value's tolerance.
struct LotShiftBar {
    std::string name;
    double shift = 0, sd = 0; ///< in tolerances
};

/// What lot.json holds.
struct FoundLot {
    std::string program, board, hash;
    std::vector<std::string> warnings, findings, notes;
    int boards = 0;
    std::vector<std::string> serials, dates;
    std::vector<std::pair<std::string, std::vector<std::string>>> texts; ///< press, batch.NAME
    std::vector<std::size_t> outliers;                                   ///< of the strips' boards
    std::optional<std::vector<std::size_t>> change; ///< first board, from, to; of the strips
    std::vector<LotStrip> strips;
    std::vector<LotBell> bells;
    std::vector<LotShiftBar> shifts;
};

/// \throws InputError for damaged text, another document or another format
FoundLot read_found_lot(const std::string& text, const std::string& file);

/// Strips of all numbers on one axis of time: readings, moving average in its limits, the change
/// and the boards that may be its first, boards that do not belong, press and batches as bands.
std::string lot_strips_picture(const FoundLot& found, const std::string& id);
/// A number's bells, predicted and found, in its limits.
std::string lot_bell_picture(const LotBell& bell, const std::string& id);
/// A bar a value: its shift in tolerances, with its deviation; the largest first.
std::string lot_shifts_picture(const FoundLot& found, const std::string& id);
std::string lot_section(const FoundLot& found);

} // namespace vrid
