#include "io/design/read_lot.hpp"

#include <algorithm>

#include "io/design/number_names.hpp"
#include "io/materials/design_paths.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

bool is_word(const std::string& name) {
    return name == "press" || (name.starts_with("batch.") && name.size() > 6);
}

std::string unknown_column(const std::string& name, const Board& board) {
    std::vector<std::string> valid = number_names(board);
    const std::vector<std::string> paths = number_paths(board);
    valid.insert(valid.end(), paths.begin(), paths.end());
    valid.insert(valid.end(), {"serial", "date", "press", "thickness@0", "EI@0", "GJ@0"});
    return "no number of this board is called " + shown_cell(name) +
           "; accepted: serial, date, press, batch.NAME, a number as vrid solve names it, "
           "thickness@X, EI@X, GJ@X, or the path of a design value that was measured itself" +
           did_you_mean(name, valid);
}

// Adds a column of readings, or notes what is wrong with its name.
bool add_column(LotHeader& header, CsvText& csv, const CsvCell& cell, const Board& board) {
    const int line = csv.rows.front().line;
    const NumberFound found = find_number(cell.text, board);
    const auto value = find_design(board, cell.text);
    if (found.request && found.request->kind == NumberId::Kind::edge) {
        note_problem(csv, line, cell.column,
                     "found " + shown_cell(cell.text) +
                         ", which no bench measures: it belongs to the board on snow");
        return false;
    }
    if (!found.request && !value) {
        const bool station = cell.text.find('@') != std::string::npos;
        const bool feet = found.wrong.find("needs the feet") != std::string::npos;
        note_problem(csv, line, cell.column,
                     station || feet ? found.wrong : unknown_column(cell.text, board));
        return false;
    }
    LotColumn column;
    column.name = cell.text;
    column.number = found.request;
    if (!found.request) {
        column.value = value->id;
        column.nominal = value->value;
    }
    column.place = csv.file + ":" + std::to_string(line) + ":" + std::to_string(cell.column);
    header.columns.push_back(column);
    return true;
}

LotCellMeaning meaning_of(LotHeader& header, CsvText& csv, const CsvCell& cell,
                          const Board& board) {
    using Kind = LotCellMeaning::Kind;
    if (cell.text == "serial") {
        return {Kind::serial, 0};
    }
    if (cell.text == "date") {
        return {Kind::date, 0};
    }
    if (is_word(cell.text)) {
        header.words.push_back(cell.text);
        return {Kind::word, header.words.size() - 1};
    }
    if (cell.text.empty()) {
        note_problem(csv, csv.rows.front().line, cell.column,
                     "found a column without a name; accepted: serial, date, press, batch.NAME, or "
                     "what was measured");
        return {};
    }
    return add_column(header, csv, cell, board)
               ? LotCellMeaning{Kind::reading, header.columns.size() - 1}
               : LotCellMeaning{};
}

} // namespace

LotHeader lot_header(CsvText& csv, const Board& board) {
    LotHeader header;
    bool serial = false;
    const CsvRow row = csv.rows.front();
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
        const CsvCell& cell = row.cells[c];
        const auto twice =
            std::find_if(row.cells.begin(), row.cells.begin() + static_cast<std::ptrdiff_t>(c),
                         [&](const CsvCell& other) { return other.text == cell.text; });
        if (!cell.text.empty() && twice != row.cells.begin() + static_cast<std::ptrdiff_t>(c)) {
            note_problem(csv, row.line, cell.column,
                         "found " + shown_cell(cell.text) + " a second time; accepted: once");
            header.meaning.push_back({});
            continue;
        }
        header.meaning.push_back(meaning_of(header, csv, cell, board));
        if (header.meaning.back().kind == LotCellMeaning::Kind::serial) {
            header.serial = c;
            serial = true;
        }
    }
    if (!serial) {
        note_problem(csv, row.line, 1,
                     "found no column serial; accepted: a header with serial, the board's own "
                     "mark, and what was measured");
    } else if (header.columns.empty() && csv.problems.empty()) {
        note_problem(csv, row.line, 1,
                     "found no column of readings; accepted: mass, a bench case, thickness@X ...");
    }
    header.can_be_read = serial && !header.columns.empty();
    return header;
}

} // namespace vrid
