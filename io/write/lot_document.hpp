#pragma once

#include <array>

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"

namespace vrid {

/// A number of the lot over its boards; nan: not measured.
struct LotStrip {
    std::string number, unit;
    Finite centre;
    std::vector<double> readings, ewma, half_width; ///< the moving average and its limits
};
VRID_FIELDS(LotStrip, 6, number, unit, centre, readings, ewma, half_width)

/// A text column: press, batch.NAME.
struct LotText {
    std::string column;
    std::vector<std::string> words; ///< by board
};
VRID_FIELDS(LotText, 0, column, words)

/// The cumulative sums of the score of the value that changed.
struct LotSums {
    std::string value;
    std::vector<double> upper, lower;
    double limit = 0;
    OrNull<std::string> signal; ///< a serial
};
VRID_FIELDS(LotSums, 6, value, upper, lower, limit, signal)

/// What the strips of the report are drawn from, of at most 1000 boards, one of each run of
/// equally many, and beside them all that a mark stands on.
struct LotStrips {
    std::vector<std::string> serials, dates;
    std::vector<LotText> texts;
    std::vector<std::size_t> outliers;         ///< of these boards
    OrNull<std::array<std::size_t, 3>> change; ///< first board, from, to
    std::vector<LotStrip> numbers;
    OrNull<LotSums> score;
};
VRID_FIELDS(LotStrips, 0, serials, dates, texts, outliers, change, numbers, score)
void check_part(const LotStrips& strips);

struct LotNormal {
    Finite mean, sd;
};
VRID_FIELDS(LotNormal, 8, mean, sd)

struct FoundMean : LotNormal {
    Later<double> mean_sd;
};
VRID_FIELDS(FoundMean, 8, mean, mean_sd, sd)

struct LotBounds {
    OrNull<double> min, max;
};
VRID_FIELDS(LotBounds, 8, min, max)

/// A number as predicted and as found, in its unit. Of Json is here and below what no page shows.
struct FoundLotNumber {
    std::string number, unit;
    LotNormal predicted;
    FoundMean found; ///< of `cells` boards, 2 or more, or not at all
    int cells = 0;
    Later<double> rig_sd;
    Later<bool> rig_sd_of_repeats;
    Later<double> bias_sd;
    Later<Json> variance_ratio;
    Later<double> cpk;
    Later<Json> outside;
    OrNull<LotBounds> limits;
    std::optional<Json> built, late;
};
VRID_FIELDS(FoundLotNumber, 8, number, unit, predicted, found, cells, rig_sd, rig_sd_of_repeats,
            bias_sd, variance_ratio, cpk, outside, limits, built, late)

/// A value's shift and tolerance, in its unit.
struct FoundShift {
    std::string value;
    Finite shift, sd;
    Later<std::string> unit;
    Finite tolerance;
    Later<double> nominal;
};
VRID_FIELDS(FoundShift, 8, value, shift, sd, unit, tolerance, nominal)

/// The document lot.json.
struct FoundLot {
    int format = 1;
    std::string program;
    BoardEntry board;
    int boards = 0;
    Later<long> cells, used;
    std::vector<std::string> findings, notes;
    std::vector<FoundLotNumber> numbers;
    Later<Json> spread, wide, outliers, change;
    Later<double> change_p;
    Later<Json> columns, mean, explanations;
    std::vector<FoundShift> shifts;
    Later<Json> told_apart_badly, scatter, scatter_together, plan;
    LotStrips strips;
    std::vector<std::string> warnings;
    Later<std::string> caution{vrid::caution};
};
VRID_FIELDS(FoundLot, 8, format, program, board, boards, cells, used, findings, notes, numbers,
            spread, wide, outliers, change, change_p, columns, mean, explanations, shifts,
            told_apart_badly, scatter, scatter_together, plan, strips, warnings, caution)

/// \throws InputError for damaged text, another document or another format
FoundLot read_found_lot(const std::string& text, const std::string& file);

} // namespace vrid
