#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "mesh/board/error.hpp"

namespace vrid {

/// One cell without its quotes and the blanks round it.
struct CsvCell {
    std::string text;
    int column = 1; ///< of its first character in the line, characters counted from 1
};

struct CsvRow {
    int line = 1;
    std::vector<CsvCell> cells; ///< at least one
};

/// The cells of a CSV text, as spreadsheets and drawing programs write them: separated by tabs,
/// semicolons or commas (the first of these that the first row has), cells in double quotes or not,
/// lines ended by LF, CRLF or CR, with or without a byte order mark. Empty lines are left out.
struct CsvText {
    std::string file;
    char separator = ',';
    std::vector<CsvRow> rows;
    std::vector<Problem> problems{}; ///< found so far, by the reader of the cells too
    char decimal_mark = 0;           ///< of the numbers read so far; 0: none had one
};
/// A quote that does not end on its line is a problem.
CsvText csv_text(std::string_view text, const std::string& file);

/// Notes a problem at file:line:column.
void note_problem(CsvText& csv, int line, int column, const std::string& message);
/// The cell as a plain decimal number (1200, -3.5, 1.2e3), with a decimal comma too unless commas
/// separate the cells. Nothing if it is none. A file that uses both marks is a problem.
std::optional<double> csv_number(CsvText& csv, const CsvRow& row, const CsvCell& cell);
/// Digits after the decimal mark, less the exponent; of a text that csv_number reads.
int decimals_of(std::string_view number);
/// What stands in a cell, quoted, fit for a message whatever the bytes.
std::string shown_cell(std::string_view text);

/// The file's problems for a message: the first 20, then "and N more".
std::vector<Problem> first_problems(const CsvText& csv);

} // namespace vrid
