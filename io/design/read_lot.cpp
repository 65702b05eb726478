#include "io/design/read_lot.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "io/materials/design_paths.hpp"
#include "io/toml/accepted.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/design_path.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

constexpr std::size_t fewest_boards = 8;

// All that is read of one board.
struct BoardCells {
    std::string serial, date;
    std::vector<std::string> words;
    std::vector<double> mean, squares; // of each column's readings: mean, squares about it
    std::vector<int> count;
};

bool is_empty(const CsvCell& cell) {
    return cell.text.empty() || cell.text == "-";
}

// 2026-09-01, or with T14:30 and seconds.
bool is_date(const std::string& text) {
    const std::string form = "dddd-dd-ddTdd:dd:dd";
    if (text.size() != 10 && text.size() != 16 && text.size() != 19) {
        return false;
    }
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (form[i] == 'd' ? !digit : text[i] != form[i]) {
            return false;
        }
    }
    const int month = std::stoi(text.substr(5, 2));
    const int day = std::stoi(text.substr(8, 2));
    const bool time = text.size() < 16 ||
                      (std::stoi(text.substr(11, 2)) < 24 && std::stoi(text.substr(14, 2)) < 60);
    return month >= 1 && month <= 12 && day >= 1 && day <= 31 && time;
}

// What is wrong with a reading, or nothing.
std::string wrong_reading(const LotColumn& column, double written) {
    if (column.value) {
        const std::string key = range_of(*column.value->kind);
        const Accepted& range = accepted(key);
        return is_accepted(range, written) ? "" : "; accepted: " + accepted_text(range);
    }
    const bool any = is_position(*column.number);
    return any || written > 0 ? "" : "; accepted: a number above 0 (empty or - is not measured)";
}

class Rows {
  public:
    Rows(CsvText& csv, const LotHeader& header) : csv_(csv), header_(header) {}

    void read(const CsvRow& row) {
        if (std::ranges::all_of(row.cells, is_empty)) { // as sheets write them below the last board
            return;
        }
        if (row.cells.size() > header_.meaning.size()) {
            const CsvCell& extra = row.cells[header_.meaning.size()];
            note_problem(csv_, row.line, extra.column,
                         "found " + std::to_string(row.cells.size()) + " cells under a header of " +
                             std::to_string(header_.meaning.size()) +
                             "; accepted: a cell a column" +
                             (csv_.separator == ','
                                  ? " (numbers with a decimal comma need semicolons between cells)"
                                  : ""));
            return;
        }
        const std::size_t at = header_.serial;
        if (at >= row.cells.size() || is_empty(row.cells[at])) {
            note_problem(csv_, row.line, at < row.cells.size() ? row.cells[at].column : 1,
                         "found no serial; accepted: the board's own mark, on every row");
            return;
        }
        const auto [known, fresh] = by_serial_.emplace(row.cells[at].text, boards.size());
        if (fresh) {
            const std::size_t columns = header_.columns.size();
            boards.push_back({row.cells[at].text, "",
                              std::vector<std::string>(header_.words.size()),
                              std::vector<double>(columns, 0.0), std::vector<double>(columns, 0.0),
                              std::vector<int>(columns, 0)});
        }
        for (std::size_t c = 0; c < row.cells.size(); ++c) {
            if (!is_empty(row.cells[c])) {
                read(row, row.cells[c], header_.meaning[c], boards[known->second]);
            }
        }
    }

    std::vector<BoardCells> boards;

  private:
    void read(const CsvRow& row, const CsvCell& cell, const LotCellMeaning& meaning,
              BoardCells& board) {
        switch (meaning.kind) {
        case LotCellMeaning::Kind::date:
            read_date(row, cell, board);
            break;
        case LotCellMeaning::Kind::word:
            board.words[meaning.index] = cell.text;
            break;
        case LotCellMeaning::Kind::reading:
            read_number(row, cell, meaning.index, board);
            break;
        case LotCellMeaning::Kind::serial:
        case LotCellMeaning::Kind::wrong:
            break;
        }
    }

    void read_date(const CsvRow& row, const CsvCell& cell, BoardCells& board) {
        if (!is_date(cell.text)) {
            note_problem(csv_, row.line, cell.column,
                         "found " + shown_cell(cell.text) +
                             "; accepted: a date as 2026-09-01, or with a time as "
                             "2026-09-01T14:30");
        } else if (board.date.empty()) {
            board.date = cell.text;
        } else if (board.date.substr(0, 10) != cell.text.substr(0, 10)) {
            note_problem(csv_, row.line, cell.column,
                         "serial " + shown_cell(board.serial) + " has the date " + cell.text +
                             " here and " + board.date + " before; accepted: one date a board");
        }
    }

    void read_number(const CsvRow& row, const CsvCell& cell, std::size_t at, BoardCells& board) {
        const LotColumn& column = header_.columns[at];
        const auto written = csv_number(csv_, row, cell);
        if (!written) {
            const bool comma = csv_.separator == ',' && cell.text.find(',') != std::string::npos;
            note_problem(csv_, row.line, cell.column,
                         "found " + shown_cell(cell.text) + " for " + column.name +
                             (comma ? ", a decimal comma in a file of commas; accepted: a decimal "
                                      "point, or semicolons between the cells"
                                    : "; accepted: a number, or empty or - where nothing was "
                                      "measured"));
            return;
        }
        const std::string wrong = wrong_reading(column, *written);
        if (!wrong.empty() || !std::isfinite(*written)) {
            note_problem(csv_, row.line, cell.column,
                         "found " + shown_cell(cell.text) + " for " + column.name + wrong);
            return;
        }
        const double value = column.to_si(*written);
        const int count = ++board.count[at];
        const double away = value - board.mean[at];
        board.mean[at] += away / count;
        board.squares[at] += away * (value - board.mean[at]);
    }

    CsvText& csv_;
    const LotHeader& header_;
    std::map<std::string, std::size_t> by_serial_;
};

// Boards with a reading, by date; one without a date goes with the board before it in the file.
std::vector<std::size_t> order_of(const std::vector<BoardCells>& boards) {
    std::vector<std::string> date;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < boards.size(); ++i) {
        date.push_back(boards[i].date.empty() && i > 0 ? date.back() : boards[i].date);
        if (std::accumulate(boards[i].count.begin(), boards[i].count.end(), 0) > 0) {
            order.push_back(i);
        }
    }
    std::ranges::stable_sort(order,
                             [&](std::size_t a, std::size_t b) { return date[a] < date[b]; });
    return order;
}

void fill(Lot& lot, const std::vector<BoardCells>& boards) {
    const std::vector<std::size_t> order = order_of(boards);
    const auto count = static_cast<Index>(order.size());
    const auto columns = static_cast<Index>(lot.columns.size());
    lot.readings.value.setConstant(columns, count, std::nan(""));
    lot.readings.count.setZero(columns, count);
    for (Index i = 0; i < count; ++i) {
        const BoardCells& board = boards[order[static_cast<std::size_t>(i)]];
        lot.serials.push_back(board.serial);
        lot.dates.push_back(board.date);
        for (std::size_t w = 0; w < lot.words.size(); ++w) {
            lot.words[w].words.push_back(board.words[w]);
        }
        for (Index k = 0; k < columns; ++k) {
            const auto at = static_cast<std::size_t>(k);
            if (board.count[at] > 0) {
                lot.readings.value(k, i) = board.mean[at];
                lot.readings.count(k, i) = board.count[at];
                lot.columns[at].repeat_squares += board.squares[at];
                lot.columns[at].repeat_degrees += board.count[at] - 1;
            }
        }
    }
}

void check_counts(const Lot& lot, CsvText& csv) {
    const std::size_t boards = lot.serials.size();
    if (boards < fewest_boards) {
        csv.problems.push_back({csv.file, "found " + std::to_string(boards) +
                                              (boards == 1 ? " board" : " boards") +
                                              " with readings; accepted: 8 or more"});
    }
    for (std::size_t k = 0; k < lot.columns.size() && boards > 0; ++k) {
        const auto cells = (lot.readings.count.row(static_cast<Index>(k)).array() > 0).count();
        if (cells < 2) {
            csv.problems.push_back(
                {lot.columns[k].place, "found " + std::string(cells == 0 ? "no" : "one") +
                                           " reading of " + lot.columns[k].name +
                                           "; accepted: two boards or more, or no such column"});
        }
    }
}

} // namespace

double LotColumn::to_si(double written) const {
    return number ? written / bench_unit(unit_of(*number)).per_si : vrid::to_si(*value, written);
}

double LotColumn::from_si(double si) const {
    return number ? si * bench_unit(unit_of(*number)).per_si : vrid::from_si(*value, si);
}

std::string LotColumn::unit() const {
    return number ? bench_unit(unit_of(*number)).name : file_unit_name(*value);
}

Lot read_lot_text(const std::string& text, const std::string& file, const Board& board) {
    CsvText csv = csv_text(text, file);
    if (csv.rows.empty()) {
        throw InputError(file, "is empty; accepted: a header with serial and the numbers measured, "
                               "then a row a board");
    }
    const LotHeader header = lot_header(csv, board);
    Lot lot;
    lot.file = file;
    lot.columns = header.columns;
    for (const std::string& name : header.words) {
        lot.words.push_back({name, {}});
    }
    if (header.can_be_read) {
        Rows rows(csv, header);
        for (std::size_t r = 1; r < csv.rows.size(); ++r) {
            rows.read(csv.rows[r]);
        }
        fill(lot, rows.boards);
    }
    if (csv.problems.empty()) {
        check_counts(lot, csv);
    }
    if (!csv.problems.empty()) {
        throw InputError(first_problems(csv));
    }
    return lot;
}

Lot read_lot(const std::string& path, const Board& board) {
    return read_lot_text(read_text(path, "", largest_lot_file), path, board);
}

} // namespace vrid
