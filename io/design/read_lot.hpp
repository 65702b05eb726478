#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/toml/csv_text.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/design_kinds.hpp"
#include "solver/design/number_id.hpp"
#include "solver/lot/lot_model.hpp"

namespace vrid {

/// The largest file of readings, about a million boards [bytes].
inline constexpr std::size_t largest_lot_file = std::size_t{64} << 20;

/// A column of readings: a number of the board, or a design value that was measured itself.
struct LotColumn {
    std::string name;
    std::optional<NumberId> number;
    std::optional<DesignId> value;
    double nominal = 0; ///< of the value, SI
    std::string place;  ///< file:line:column of the header's cell
    /// Of repeats on one board: sum of squares about each board's mean [SI squared], and their
    /// degrees of freedom.
    double repeat_squares = 0;
    int repeat_degrees = 0;

    [[nodiscard]] double to_si(double written) const;
    [[nodiscard]] double from_si(double si) const;
    [[nodiscard]] std::string unit() const; ///< for people; empty: a pure number
};

/// A column of words: press, batch.NAME.
struct LotWords {
    std::string name;
    std::vector<std::string> words; ///< by board; empty: not noted
};

/// What a plant measured, boards in order of time: by date, then as the file has them.
struct Lot {
    std::string file;
    std::vector<LotColumn> columns;
    std::vector<std::string> serials, dates; ///< by board; a date may be empty
    std::vector<LotWords> words;
    LotReadings readings; ///< SI; rows as the columns
};

/// Reads a CSV of readings. `serial` is required; date, press and batch.NAME are words; all other
/// columns are numbers of the board by name in bench units, or paths of design values in the file's
/// unit. A cell that is empty or "-" is not measured; a serial met again is a repeat. Boards
/// without any reading are left out. \throws InputError with all problems, each with its place
Lot read_lot_text(const std::string& text, const std::string& file, const Board& board);
Lot read_lot(const std::string& path, const Board& board);

/// What a column of a file of readings holds.
struct LotCellMeaning {
    enum class Kind { serial, date, word, reading, wrong };
    Kind kind = Kind::wrong;
    std::size_t index = 0; ///< of LotHeader::words or ::columns
};

struct LotHeader {
    std::vector<LotCellMeaning> meaning; ///< by column of the file
    std::vector<LotColumn> columns;
    std::vector<std::string> words;
    std::size_t serial = 0;   ///< which column
    bool can_be_read = false; ///< serials and readings are there
};

/// Understands the first row; what is wrong is noted in `csv`.
LotHeader lot_header(CsvText& csv, const Board& board);

} // namespace vrid
