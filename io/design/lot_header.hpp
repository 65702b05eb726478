#pragma once

#include <string>
#include <vector>

#include "io/design/read_lot.hpp"
#include "io/toml/csv_text.hpp"

namespace vrid {

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
